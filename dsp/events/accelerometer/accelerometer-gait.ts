import { median } from '../../numeric/statistics.ts';
import type { Mounting } from '../../../shared/words.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import type { AccelerometerFrame } from './accelerometer-frame.ts';
import type { AnchoredStride } from './accelerometer-strides.ts';
import { lowPass } from '../../signals/sensor-signals.ts';

/**
 * Which strides can only be of running, by two means of the acceleration.
 * Over a stride that ends as it began, velocity comes back to what it was: a segment that does not turn averages to gravity,
 * however it is thrown up and lands (jumping, hopping). One that swings is pulled outward by its turning on top of that.
 * While a walker stands, the segment rests and reads gravity alone; a runner's never rests that long.
 * Both are judged with the strides around, the second for each stride as well.
 * @param landed touchdowns, sample indices; NaN where there is none
 * @param rate_hz samples a second
 * @param usual_s stride time that the low-pass is made for
 * @returns one entry a stride
 */
export function strideOfRunning(
  frame: AccelerometerFrame,
  mounting: Mounting,
  strides: AnchoredStride[],
  landed: number[],
  rate_hz: number,
  usual_s: number,
  settings: AnalysisSettings,
): boolean[] {
  const { cutoff, gait: m } = settings.accelerometer;
  const [along, across, beside] = [frame.along, frame.across, frame.beside].map((c) =>
    lowPass(c, cutoff.slow / usual_s, rate_hz),
  );
  const pulls = strides.map(({ stride_s }, k) => {
    const stride = stride_s * rate_hz;
    const over = (c: Float64Array): number =>
      meanOver(c, landed[k] - m.stride_before * stride, landed[k] + m.stride_after * stride);
    return Math.hypot(over(along), over(across), over(beside));
  });
  const length = along.map((a, i) => Math.hypot(a, across[i], beside[i]));
  const stances = strides.map(({ stride_s }, k) => {
    const stride = stride_s * rate_hz;
    return meanOver(length, landed[k] + m.stance_from * stride, landed[k] + m.stance_to * stride);
  });
  const usual = (values: number[], k: number): number => {
    const near = values.slice(Math.max(0, k - m.neighbours), k + m.neighbours + 1).filter(Number.isFinite);
    return near.length > 0 ? median(near) : Number.NaN;
  };
  return strides.map(
    (_, k) =>
      usual(pulls, k) >= m.least_pull_mps2[mounting] &&
      usual(stances, k) >= m.least_stance_mps2[mounting] &&
      // The first walked steps after a run.
      !(stances[k] < m.own_part * m.least_stance_mps2[mounting]),
  );
}

/** Mean of a column's finite values; NaN where the window leaves the recording. */
function meanOver(x: Float64Array, from: number, to: number): number {
  const [a, b] = [Math.round(from), Math.round(to)];
  if (!(a >= 0 && b <= x.length)) return Number.NaN;
  let [sum, n] = [0, 0];
  for (let i = a; i < b; i++) {
    if (!Number.isFinite(x[i])) continue;
    sum += x[i];
    n++;
  }
  return n > 0 ? sum / n : Number.NaN;
}
