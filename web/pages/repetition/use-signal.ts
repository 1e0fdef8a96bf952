import { useEffect, useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import { decodeSignal, type SignalWindow } from '../../../shared/signal-wire.ts';
import type { Side } from '../../../shared/words.ts';
import { client, faultOf } from '../../client.ts';
import type { SignalRange } from './signal-range.ts';

/** The least and the greatest value for each pixel across, in a window twice as wide as what is shown: more would only be drawn over. */
const POINTS_A_PIXEL = 4;
const MOST_POINTS = 4000;
/** Zooming and panning draw what is there at once; the finer signal is fetched when the hand rests. */
const REST_MS = 80;

/**
 * The signal of one side within a window, with half a window to each side for panning.
 * @param range null asks for nothing yet
 */
export function useSignal(repetition_id: number, side: Side, range: SignalRange | null) {
  const [signal, setSignal] = useState<SignalWindow | null>(null);
  const [fault, setFault] = useState<Fault | null>(null);
  const from_s = range?.from_s;
  const to_s = range?.to_s;

  useEffect(() => {
    if (from_s === undefined || to_s === undefined) return;
    let current = true;
    const width = to_s - from_s;
    const query = new URLSearchParams({
      side,
      from_s: (from_s - width / 2).toFixed(4),
      to_s: (to_s + width / 2).toFixed(4),
      max_points: String(Math.min(MOST_POINTS, POINTS_A_PIXEL * innerWidth)),
    });
    const timer = setTimeout(async () => {
      try {
        const bytes = await client.bytes(`/repetitions/${repetition_id}/signal?${query}`);
        if (!current) return;
        setSignal(decodeSignal(bytes));
        setFault(null);
      } catch (error) {
        if (current) setFault(faultOf(error));
      }
    }, REST_MS);
    return () => {
      current = false;
      clearTimeout(timer);
    };
  }, [repetition_id, side, from_s, to_s]);

  return { signal, fault };
}
