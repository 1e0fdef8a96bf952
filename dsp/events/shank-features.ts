import { derivative } from '../filters/index.ts';
import type { AnalysisSettings } from '../settings.ts';
import { argMax, argMin, best, firstCrossing, localMaxima, vertex } from './peaks.ts';
import type { StrideFrame } from './stride-frame.ts';

/** What a shank sensor shows of one contact; fractional indices of the frame's columns. */
export interface ShankFeatures {
  mounting: 'shank';
  /** Steepest rise of the vertical acceleration: the jolt of landing arrives. */
  impact_rise: number;
  /** Middle of the contact, roughly. */
  mid: number;
  /** Greatest forward rate in late contact, before the knee folds. */
  rate_maximum: number;
  /** Steepest fall of the forward rate after it: the knee folds. */
  rate_fall: number;
  /** Where the tangent of that fall meets the level of the maximum: the fold begins. */
  fall_begins: number;
}

/** Finds the features of touchdown and toe-off in a shank sensor's stride; arguments as `footFeatures`. */
export function shankFeatures(
  frame: StrideFrame,
  slow_rate: Float64Array,
  settings: AnalysisSettings,
): ShankFeatures | null {
  const { up, rate_hz, stride_s, from, to } = frame;
  const stride = stride_s * rate_hz;
  const w = settings.shank_windows;
  const zero = firstCrossing(slow_rate, from, to, 0, 'falling');
  if (zero === null) return null;
  const top = landingPeak(up, zero, w.landing * stride, w.impact_before * stride);
  if (top < 0) return null;
  const slope_up = derivative(up, rate_hz);
  const rise = argMax(slope_up, top - w.rise_before_peak * stride, top + 1);

  const late = localMaxima(slow_rate, zero + w.shortest_contact * stride, to - w.fold * stride);
  const peak = best(late, (i) => slow_rate[i]);
  if (peak < 0) return null;
  const bottom = argMin(slow_rate, peak, peak + w.fall * stride);
  const slope = derivative(slow_rate, rate_hz);
  const fall = argMin(slope, peak, bottom + 1);
  if (fall < 0 || rise < 0 || !(slope[fall] < 0)) return null;
  return {
    mounting: 'shank',
    impact_rise: vertex(slope_up, rise),
    mid: Math.round(top + 0.4 * (fall - top)),
    rate_maximum: vertex(slow_rate, peak),
    rate_fall: vertex(slope, fall),
    fall_begins: fall + ((slow_rate[peak] - slow_rate[fall]) / slope[fall]) * rate_hz,
  };
}

/** First peak of vertical acceleration after the leg turned backward that stands out at least half as high as the highest. */
function landingPeak(up: Float64Array, zero: number, window: number, before: number): number {
  const height = (i: number): number => up[i] - up[argMin(up, Math.max(0, zero - before), i)];
  const tops = localMaxima(up, zero, zero + window);
  const highest = best(tops, height);
  return tops.find((i) => height(i) > 0.5 * height(highest)) ?? highest;
}
