import { useRef, useState } from 'preact/hooks';
import type { PairedSensor, SensorPlaceChange } from '../../../shared/schemas/capture.ts';

/** States come several times a second. */
const SETTLED_MS = 600;

/**
 * Shows what the coach has just chosen for a sensor until the server has answered. The state of sensors comes many times a second,
 * and an older one must not take a choice back that is still on its way.
 * @param sensor as the server last told it
 * @param send sends a change; a refusal is shown elsewhere, and the server's word stands again
 */
export function useChosenPlace(
  sensor: PairedSensor,
  send: (change: SensorPlaceChange) => Promise<void>,
): { shown: PairedSensor; place: (change: SensorPlaceChange) => void } {
  const [chosen, setChosen] = useState<SensorPlaceChange>({});
  const underWay = useRef(0);
  const place = (change: SensorPlaceChange): void => {
    underWay.current++;
    setChosen((before) => ({ ...before, ...change, settings: { ...before.settings, ...change.settings } }));
    void send(change).finally(() => {
      // The state that carries the change may come a moment after the answer.
      setTimeout(() => {
        underWay.current--;
        if (underWay.current === 0) setChosen({});
      }, SETTLED_MS);
    });
  };
  const shown = { ...sensor, ...chosen, settings: { ...sensor.settings, ...chosen.settings } };
  return { shown, place };
}
