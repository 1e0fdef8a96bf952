import { derivative } from '../filters/index.ts';
import { lowPass, type SensorSignals } from './sensor-signals.ts';

/**
 * Length of the change of acceleration, m/s3: the same however the sensor is turned.
 * @param cutoff_hz low-pass before the change is taken; never above 0.4 of the rate
 */
export function changeOfAcceleration(signals: SensorSignals, cutoff_hz: number): Float64Array {
  const { acc_mps2, rate_hz, length } = signals;
  const cutoff = Math.min(cutoff_hz, 0.4 * rate_hz);
  const out = new Float64Array(length);
  for (const axis of [acc_mps2.x, acc_mps2.y, acc_mps2.z]) {
    const change = derivative(lowPass(axis, cutoff, rate_hz), rate_hz);
    for (let i = 0; i < length; i++) out[i] += change[i] * change[i];
  }
  for (let i = 0; i < length; i++) out[i] = Math.sqrt(out[i]);
  return out;
}
