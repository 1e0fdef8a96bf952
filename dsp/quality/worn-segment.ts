import { lowPass, type SensorSignals } from '../signals/sensor-signals.ts';
import { type SwingCycle, swingCycles } from '../events/swing-cycles.ts';
import { MAD_TO_SD, median, quantile } from '../numeric/statistics.ts';
import type { AnalysisSettings } from '../settings/settings.ts';

/** A number over strides: its median and that median's standard uncertainty. */
export interface StrideFigure {
  value: number;
  value_u: number;
  strides: number;
}

/**
 * Median with its uncertainty: 1.25 standard deviations over the root of the count, the spread taken robustly.
 * @param values one a stride
 */
export function strideFigure(values: number[]): StrideFigure {
  const value = median(values);
  const spread = MAD_TO_SD * median(values.map((v) => Math.abs(v - value)));
  return { value, value_u: (1.25 * spread) / Math.sqrt(values.length), strides: values.length };
}

/**
 * Whether the sensor turned as a foot or as a shank does, whatever it is called. Both turn backward once a stride, from before
 * touchdown until the leg swings forward again. A foot soon lies flat on the ground and rests, and does most of its turning
 * afterwards, heel up; a shank is then going over the standing foot, as fast as on average, and slows down only when the knee
 * is about to fold. So: the rate in that part of the backward turn, against the mean of all of it. No event and no mounting goes into it.
 * @returns the figure: about 0.16 for feet, about 1.1 for shanks; null without gyroscope or with too few strides of running
 */
export function wornSegment(signals: SensorSignals, settings: AnalysisSettings): StrideFigure | null {
  const { cutoff_per_stride, least_strides, least_peak_part } = settings.mounting.segment;
  const { sagittal_rate, rate_hz } = signals;
  if (!sagittal_rate) return null;
  const running = swingCycles(signals, settings).filter(
    ({ whole, from, to }) => whole && to - from < settings.running.max_stride_s * rate_hz,
  );
  if (running.length < least_strides) return null;
  const fast = least_peak_part * quantile(running.map(peakOf), 0.9);
  const strides = running.filter((cycle) => peakOf(cycle) > fast);
  const stride_s = median(strides.map(({ from, to }) => to - from)) / rate_hz;
  const rate = lowPass(sagittal_rate, cutoff_per_stride / stride_s, rate_hz);
  const values = strides
    .map(({ from, to }) => flatRate(rate, from, to, settings))
    .filter((value) => Number.isFinite(value));
  return values.length < least_strides ? null : strideFigure(values);
}

/** Both ends of a whole cycle are swings; the slower counts. */
function peakOf({ swing_before_radps, swing_after_radps }: SwingCycle): number {
  return Math.min(swing_before_radps ?? 0, swing_after_radps ?? 0);
}

/** The figure of one stride; NaN where it holds a loss or no backward turn. */
function flatRate(rate: Float64Array, from: number, to: number, settings: AnalysisSettings): number {
  const { points, flat_from, flat_to } = settings.mounting.segment;
  let first = from;
  while (first < to && rate[first] > 0) first++;
  let last = to;
  while (last > first && rate[last] > 0) last--;
  if (last - first < points / 4) return Number.NaN;
  let [all, flat, flatPoints] = [0, 0, 0];
  for (let k = 0; k < points; k++) {
    const share = (k + 0.5) / points;
    const at = first + (last - first) * share;
    const i = Math.floor(at);
    const backward = Math.max(0, -(rate[i] + (rate[i + 1] - rate[i]) * (at - i)));
    all += backward;
    if (share < flat_from || share > flat_to) continue;
    flat += backward;
    flatPoints++;
  }
  return flat / flatPoints / (all / points);
}
