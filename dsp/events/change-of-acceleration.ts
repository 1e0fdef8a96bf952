import type { AxisColumns } from '../../shared/sample-block.ts';
import { derivative } from '../filters/index.ts';
import { lowPass, type SensorSignals } from './sensor-signals.ts';

/**
 * Length of the change of acceleration, m/s3: the same however the sensor is turned.
 * @param cutoff_hz low-pass before the change is taken; never above 0.4 of the rate
 */
export function changeOfAcceleration(signals: SensorSignals, cutoff_hz: number): Float64Array {
  const cutoff = Math.min(cutoff_hz, 0.4 * signals.rate_hz);
  return lengthOf(signals.acc_mps2, (axis) => derivative(lowPass(axis, cutoff, signals.rate_hz), signals.rate_hz));
}

/**
 * Length of the second change of acceleration, m/s4.
 * @param cutoff_hz low-pass before the change is taken; none where it is close to half of the rate, since even a weak one smears the
 * onset of a blow over the samples before it
 */
export function secondChangeOfAcceleration(acc: AxisColumns, rate_hz: number, cutoff_hz: number): Float64Array {
  return lengthOf(acc, (axis) => {
    const x = passesAll(cutoff_hz, rate_hz) ? axis : lowPass(axis, cutoff_hz, rate_hz);
    const out = new Float64Array(x.length);
    for (let i = 1; i < x.length - 1; i++) out[i] = (x[i - 1] - 2 * x[i] + x[i + 1]) * rate_hz * rate_hz;
    return out;
  });
}

/** A low-pass of this cut-off is left away at this rate. */
export function passesAll(cutoff_hz: number, rate_hz: number): boolean {
  return cutoff_hz > 0.35 * rate_hz;
}

function lengthOf(acc: AxisColumns, change: (axis: Float64Array) => Float64Array): Float64Array {
  const out = new Float64Array(acc.x.length);
  for (const axis of [acc.x, acc.y, acc.z]) {
    const changed = change(axis);
    for (let i = 0; i < out.length; i++) out[i] += changed[i] * changed[i];
  }
  for (let i = 0; i < out.length; i++) out[i] = Math.sqrt(out[i]);
  return out;
}
