import type { AxisColumns } from '../../shared/sample-block.ts';
import { derivative } from '../filters/index.ts';
import type { AnalysisSettings } from '../settings/settings.ts';
import { lowPass, lowPassTogether, type SensorSignals } from './sensor-signals.ts';

/**
 * Jerk magnitude, m/s3: length of the change of acceleration, the same however the sensor is turned.
 * @param cutoff_hz low-pass before the change is taken; never above 0.4 of the rate
 * @returns one value a sample, m/s3; NaN in gaps
 */
export function jerkMagnitude(signals: SensorSignals, cutoff_hz: number): Float64Array {
  const cutoff = Math.min(cutoff_hz, 0.4 * signals.rate_hz);
  const { acc_mps2, rate_hz, length } = signals;
  const out = new Float64Array(length);
  for (const axis of lowPassTogether([acc_mps2.x, acc_mps2.y, acc_mps2.z], cutoff, rate_hz)) {
    const change = derivative(axis, rate_hz);
    for (let i = 0; i < length; i++) out[i] += change[i] * change[i];
  }
  for (let i = 0; i < length; i++) out[i] = Math.sqrt(out[i]);
  return out;
}

/** Magnitudes of the first and second derivative of acceleration over a recording, one value a sample. */
export interface JerkAndSnap {
  /** m/s3 */
  jerk: Float64Array;
  /** m/s4 */
  snap: Float64Array;
}

/**
 * Magnitudes of jerk and snap, sample by sample.
 * @param acc n samples an axis, m/s2
 * @param rate_hz samples a second
 * @param cutoff_hz low-pass before the change is taken; none where it is close to half of the rate, since even a weak one smears the
 * onset of a blow over the samples before it
 */
export function jerkAndSnap(acc: AxisColumns, rate_hz: number, cutoff_hz: number): JerkAndSnap {
  const n = acc.x.length;
  const [jerk, snap] = [new Float64Array(n), new Float64Array(n)];
  const axes = [acc.x, acc.y, acc.z];
  for (const x of passesAll(cutoff_hz, rate_hz) ? axes : lowPassTogether(axes, cutoff_hz, rate_hz)) {
    for (let i = 1; i < n - 1; i++) {
      const change = ((x[i + 1] - x[i - 1]) * rate_hz) / 2;
      const bend = (x[i - 1] - 2 * x[i] + x[i + 1]) * rate_hz * rate_hz;
      jerk[i] += change * change;
      snap[i] += bend * bend;
    }
  }
  for (let i = 0; i < n; i++) {
    jerk[i] = Math.sqrt(jerk[i]);
    snap[i] = Math.sqrt(snap[i]);
  }
  return { jerk, snap };
}

/**
 * A low-pass of this cut-off is left away at this rate.
 * @param cutoff_hz of the low-pass
 * @param rate_hz samples a second
 * @returns true above 0.35 of the rate
 */
export function passesAll(cutoff_hz: number, rate_hz: number): boolean {
  return cutoff_hz > 0.35 * rate_hz;
}

/**
 * Jerk magnitude as landings carry it, smooth enough to be compared from contact to contact, m/s3.
 * @param usual_s stride time that the low-passes are made for
 * @returns one value a sample, m/s3; NaN in gaps
 */
export function landingJerk(signals: SensorSignals, usual_s: number, settings: AnalysisSettings): Float64Array {
  const jerk = jerkMagnitude(signals, settings.accelerometer.cutoff.jolt / usual_s);
  return lowPass(jerk, settings.features.cutoff_per_stride / usual_s, signals.rate_hz);
}
