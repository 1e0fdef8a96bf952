import type { Mounting } from '../../../shared/words.ts';
import { derivative } from '../../filters/index.ts';
import { mean, standardDeviation } from '../../numeric/statistics.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import { lowPass } from '../../signals/sensor-signals.ts';
import type { AccelerometerFrame } from './accelerometer-frame.ts';

/** Columns of a whole recording that push-offs show in, low-passed in cycles a stride. */
export interface PushOffColumns {
  rate_hz: number;
  /** Fall of the lengthwise acceleration, m/s3, and the same less smoothed. */
  fall: Float64Array;
  quickFall: Float64Array;
  along: Float64Array;
  /** Across the segment, m/s2. */
  mid: Float64Array;
  /** How fast the acceleration across falls, and more smoothed, how fast it rises, m/s3. */
  acrossFall: Float64Array;
  acrossRise: Float64Array;
}

/**
 * Makes the columns that push-offs are looked for in.
 * @param rate_hz samples a second
 * @param usual_s stride time that the low-passes are made for
 */
export function pushOffColumns(
  frame: AccelerometerFrame,
  rate_hz: number,
  usual_s: number,
  settings: AnalysisSettings,
): PushOffColumns {
  const { cutoff } = settings.accelerometer;
  const low = (x: Float64Array, cycles: number): Float64Array => lowPass(x, cycles / usual_s, rate_hz);
  const falling = (x: Float64Array): Float64Array => derivative(x, rate_hz).map((v) => -v);
  const along = low(frame.along, cutoff.middle);
  return {
    rate_hz,
    fall: falling(along),
    quickFall: falling(low(frame.along, cutoff.quick)),
    along,
    mid: low(frame.across, cutoff.mid),
    acrossFall: falling(low(frame.across, cutoff.middle)),
    acrossRise: derivative(low(frame.across, cutoff.slow), rate_hz),
  };
}

/**
 * How unlikely a share of the stride is for the feature, in units of the score.
 * @param share of the stride, from touchdown to the feature
 * @param stride_s stride time
 * @returns 0 at the usual share
 */
export function unusual(share: number, stride_s: number, mounting: Mounting, settings: AnalysisSettings): number {
  const { toe_off: w } = settings.accelerometer;
  const usual = w[mounting].usual + w[mounting].usual_per_s * (stride_s - w.usual_at_s);
  return w.share_weight[mounting] * (share - usual) ** 2;
}

/**
 * Mean and standard deviation of a column from after the landing to late swing: what a stride's features are measured by.
 * @param x n samples
 * @param down touchdown, sample index
 * @param stride samples a stride
 * @returns in the unit of x; sd is NaN where fewer than three samples are left
 */
export function spread(
  x: Float64Array,
  down: number,
  stride: number,
  settings: AnalysisSettings,
): { mean: number; sd: number } {
  const { spread_from, spread_to } = settings.accelerometer.toe_off;
  const part = [
    ...x.subarray(Math.max(0, Math.round(down + spread_from * stride)), Math.round(down + spread_to * stride)),
  ].filter(Number.isFinite);
  return part.length > 2 ? { mean: mean(part), sd: standardDeviation(part) } : { mean: 0, sd: Number.NaN };
}
