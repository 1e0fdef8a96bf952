import { median, quantile } from '../../numeric/statistics.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import { argMax, localMaxima } from '../../numeric/peaks.ts';
import { lowPass, thinned } from '../../signals/sensor-signals.ts';

/** One stride without a gyroscope: where its anchor lies, and how long it lasts. */
export interface AnchoredStride {
  /** Sample index of the anchor. */
  anchor: number;
  stride_s: number;
}

/** Stride times over a recording: one each `period_step_s`, NaN where nothing repeats itself as running does. */
export interface StrideTimes {
  step: number;
  values_s: Float64Array;
}

/**
 * Stride time along a recording from the likeness of the signal to itself (autocorrelation, normalised by both parts).
 * @param x a column that repeats itself once a stride
 * @param active 1 where the sensor is shaken as in running
 * @param rate_hz samples a second
 */
export function strideTimes(
  x: Float64Array,
  active: Uint8Array,
  rate_hz: number,
  settings: AnalysisSettings,
): StrideTimes {
  const s = settings.accelerometer;
  const every = Math.max(1, Math.round(rate_hz / s.period_rate_hz));
  const slow = thinned(x, every);
  const hz = rate_hz / every;
  const window = Math.round(s.period_window_s * hz);
  const step = Math.max(1, Math.round(s.period_step_s * hz));
  const count = Math.max(1, Math.ceil(slow.length / step));
  const values_s = new Float64Array(count).fill(Number.NaN);
  const candidates: number[][] = Array.from({ length: count }, () => []);
  for (let k = 0; k < count; k++) {
    const centre = k * step;
    if (active[Math.min(active.length - 1, centre * every)] !== 1) continue;
    const from = Math.max(0, Math.min(centre - (window >> 1), slow.length - window));
    candidates[k] = periods(slow.subarray(from, from + window), hz, settings);
    values_s[k] = candidates[k][0] ?? Number.NaN;
  }
  // Two strides may be far more alike than one, where left and right disturb each other: half of it is then the stride.
  const usual = usualStrideTime({ step, values_s }, s.longest_stride_s);
  candidates.forEach((found, k) => {
    if (!(values_s[k] > s.double_from * usual)) return;
    const half = found.find((value) => Math.abs(2 * value - values_s[k]) < s.stride_tolerance * values_s[k]);
    if (half !== undefined) values_s[k] = half;
  });
  return { step: step * every, values_s };
}

/** Times after which a column is like itself, the likeliest first; none where nothing repeats itself. */
function periods(x: Float64Array, hz: number, settings: AnalysisSettings): number[] {
  const s = settings.accelerometer;
  const least = Math.round(s.shortest_stride_s * hz);
  // Looked at beyond the longest running stride, so that walking shows its own period instead of a part of it.
  const most = Math.min(Math.round(1.5 * s.longest_stride_s * hz), x.length - Math.round(0.3 * hz));
  const likeness = new Float64Array(Math.max(0, most + 1));
  for (let lag = least - 1; lag <= most; lag++) likeness[lag] = likenessAt(x, lag);
  const tops = localMaxima(likeness, least, most + 1);
  if (tops.length === 0) return [];
  const highest = Math.max(...tops.map((lag) => likeness[lag]));
  if (!(highest >= s.least_likeness)) return [];
  const first = tops.find((lag) => likeness[lag] >= s.shorter_period_part * highest)!;
  const others = tops.filter((lag) => lag !== first && likeness[lag] >= s.half_period_part * highest);
  return [first, ...others].map((lag) => lag / hz);
}

/** Correlation of a column with itself `lag` samples later. */
function likenessAt(x: Float64Array, lag: number): number {
  const n = x.length - lag;
  let [sa, sb, aa, bb, ab] = [0, 0, 0, 0, 0];
  for (let i = 0; i < n; i++) {
    const [a, b] = [x[i], x[i + lag]];
    sa += a;
    sb += b;
    aa += a * a;
    bb += b * b;
    ab += a * b;
  }
  return (ab - (sa * sb) / n) / Math.sqrt((aa - (sa * sa) / n) * (bb - (sb * sb) / n));
}

/**
 * The stride time around a sample: the median of the three nearest values; NaN where there is none.
 * @param index sample
 * @returns s
 */
export function strideTimeAt(times: StrideTimes, index: number): number {
  const k = Math.round(index / times.step);
  const near = [...times.values_s.subarray(Math.max(0, k - 1), k + 2)].filter(Number.isFinite);
  return near.length > 0 ? median(near) : Number.NaN;
}

/**
 * Median stride time of the running in a recording, for filters; NaN where there is none.
 * @param longest_s longer ones are walking
 * @returns s
 */
export function usualStrideTime(times: StrideTimes, longest_s: number): number {
  const found = [...times.values_s].filter((stride) => stride <= longest_s);
  return found.length > 0 ? median(found) : Number.NaN;
}

/**
 * One anchor a stride: of the peaks of a column with one main peak a stride, the chain that is highest and keeps the stride
 * time. The time to the next anchor (or from the one before) is the stride time where it agrees with the period.
 * @param column n samples
 * @param cutoff_hz low-pass that leaves one main peak a stride
 * @param times from `strideTimes`
 * @param rate_hz samples a second
 */
export function anchoredStrides(
  column: Float64Array,
  cutoff_hz: number,
  times: StrideTimes,
  rate_hz: number,
  settings: AnalysisSettings,
): AnchoredStride[] {
  const s = settings.accelerometer;
  const x = lowPass(column, cutoff_hz, rate_hz);
  const anchors = bestChain(relativePeaks(x, times, rate_hz, settings), settings);
  const height = quantile(
    anchors.map((i) => x[i]),
    0.9,
  );
  return anchors
    .map((anchor, k) => {
      const usual = strideTimeAt(times, anchor);
      const fits = (gap: number): boolean => Math.abs(gap - usual) < s.stride_tolerance * usual;
      const [next, before] = [anchors[k + 1] - anchor, anchor - anchors[k - 1]].map((gap) => gap / rate_hz);
      const stride_s = fits(next) ? next : fits(before) ? before : usual;
      // The step out of a run into a walk swings far less than the one before it.
      const fading = !fits(next) && fits(before) && x[anchor] < s.fading_part * x[anchors[k - 1]];
      return { anchor, stride_s, kept: !fading && x[anchor] >= s.least_part * height };
    })
    .filter(({ kept }) => kept)
    .map(({ anchor, stride_s }) => ({ anchor, stride_s }));
}

/** A peak with its height as a part of the highest around it, and the samples of a stride there. */
interface Peak {
  at: number;
  part: number;
  stride: number;
}

function relativePeaks(x: Float64Array, times: StrideTimes, rate_hz: number, settings: AnalysisSettings): Peak[] {
  const { longest_stride_s, anchor_part } = settings.accelerometer;
  const peaks: Peak[] = [];
  for (const at of localMaxima(x, 0, x.length)) {
    const stride_s = strideTimeAt(times, at);
    if (!(stride_s <= longest_stride_s)) continue;
    const reach = Math.round(1.5 * stride_s * rate_hz);
    const part = x[at] / x[argMax(x, at - reach, at + reach + 1)];
    if (x[at] > 0 && part >= anchor_part) peaks.push({ at, part, stride: stride_s * rate_hz });
  }
  return peaks;
}

/**
 * The chain of peaks with the greatest sum of heights less what its gaps differ from the stride time; it may break off and
 * begin anew, at a price (dynamic programming, as beats are tracked in music: Ellis 2007, from memory).
 */
function bestChain(peaks: Peak[], settings: AnalysisSettings): number[] {
  const { gap_weight, break_cost, anchor_distance } = settings.accelerometer.chain;
  const totals: number[] = [];
  const from: number[] = [];
  let [open, best] = [0, -1];
  peaks.forEach(({ at, part, stride }, i) => {
    // Of all peaks at least the least distance back, the best to begin anew after.
    while (open < i && at - peaks[open].at >= anchor_distance * stride) {
      if (best < 0 || totals[open] > totals[best]) best = open;
      open++;
    }
    let [total, origin] = [0, -1];
    if (best >= 0 && totals[best] - break_cost > total) [total, origin] = [totals[best] - break_cost, best];
    for (let j = i - 1; j >= 0 && at - peaks[j].at <= stride / anchor_distance; j--) {
      const gap = (at - peaks[j].at) / stride;
      if (gap < anchor_distance) continue;
      const linked = totals[j] - gap_weight * Math.log(gap) ** 2;
      if (linked > total) [total, origin] = [linked, j];
    }
    totals.push(total + part);
    from.push(origin);
  });
  const chain: number[] = [];
  for (let i = totals.indexOf(Math.max(...totals)); i >= 0; i = from[i]) chain.push(peaks[i].at);
  return chain.reverse();
}
