import { derivative } from '../../filters/index.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import { argMax } from '../../numeric/peaks.ts';
import { lowPass } from '../../signals/sensor-signals.ts';
import type { ShankFeatures } from './shank-features.ts';
import type { StrideFrame } from '../stride-frame.ts';

/**
 * Where the jolt of a soft landing rises in the length of a shank's acceleration, without regard to directions: the burst of
 * change that comes once a stride, and the steepest rise before it. It tells a heel's rise from the forefoot's, which the
 * vertical acceleration alone does not.
 * @param soft_jerk length of the change of acceleration over the recording, low-passed to what a smeared impact carries
 * @returns fractional index of the frame; null where nothing rises
 */
export function joltRise(
  frame: StrideFrame,
  { soft_from }: ShankFeatures,
  soft_jerk: Float64Array,
  settings: AnalysisSettings,
): number | null {
  const { cutoff, shank: m } = settings.accelerometer;
  const { first, norm, rate_hz, stride_s } = frame;
  const stride = stride_s * rate_hz;
  const burst = lowPass(soft_jerk.slice(first, first + norm.length), cutoff.burst / stride_s, rate_hz);
  const jolt = argMax(burst, soft_from - m.burst_before * stride, soft_from + m.burst_after * stride);
  const rise = derivative(lowPass(norm, cutoff.middle / stride_s, rate_hz), rate_hz);
  const steepest = argMax(rise, jolt - m.rise_before * stride, jolt + m.rise_after * stride);
  return jolt < 0 || steepest < 0 || !(rise[steepest] > 0) ? null : steepest;
}
