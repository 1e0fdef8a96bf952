import { derivative } from '../../filters/index.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import { argMin, best, firstCrossing, localMaxima, localMinima, vertex } from '../../numeric/peaks.ts';
import type { StrideFrame } from '../stride-frame.ts';
import type { SegmentFeatures } from './segment-features.ts';

/** How a shank turns over one contact; touchdown lies between the leg's turn backward and well before the knee folds. */
export interface ShankFeatures extends SegmentFeatures {
  /** Greatest forward rate in late contact, before the knee folds. */
  rate_maximum: number;
  /** Steepest fall of the forward rate after it: the knee folds. */
  rate_fall: number;
  /** Where the tangent of that fall meets the level of the maximum: the fold begins. */
  fall_begins: number;
}

/**
 * Finds how the shank turns over the contact within a stride; arguments as `footFeatures`.
 * @param slow_rate forward rate, low-passed further, rad/s
 * @returns null when the stride does not turn as a running shank does
 */
export function shankFeatures(
  frame: StrideFrame,
  slow_rate: Float64Array,
  settings: AnalysisSettings,
): ShankFeatures | null {
  const { rate_hz, stride_s, from, to } = frame;
  const stride = stride_s * rate_hz;
  const w = settings.shank_windows;
  const zero = firstCrossing(slow_rate, from, to, 0, 'falling');
  if (zero === null) return null;
  const peak = greatestLateRate(slow_rate, zero + w.shortest_contact * stride, to, stride, settings);
  if (peak < 0) return null;
  const bottom = argMin(slow_rate, peak, peak + w.fall * stride);
  const slope = derivative(slow_rate, rate_hz);
  const fall = argMin(slope, peak, bottom + 1);
  if (fall < 0 || !(slope[fall] < 0)) return null;
  const landing_to = Math.min(zero + w.landing * stride, peak - w.landing_before_fold * stride);
  const earliest = fall - w.longest_contact * stride;
  return {
    turn: zero,
    landing_from: Math.max(zero - w.landing_before_turn * stride, earliest),
    landing_to,
    soft_from: Math.max(zero, earliest),
    soft_to: Math.min(landing_to, zero + w.soft_landing * stride),
    mid: Math.round(0.5 * (Math.min(landing_to, zero + w.impact * stride) + fall)),
    rate_maximum: vertex(slow_rate, peak),
    rate_fall: vertex(slope, fall),
    fall_begins: fall + ((slow_rate[peak] - slow_rate[fall]) / slope[fall]) * rate_hz,
  };
}

/** A minimum counts as the knee's fold when it is this part as deep as the deepest, which may be the landing's. */
const DEEP = 0.25;

/** Where the knee has folded: the last deep minimum of the rate before the next swing. */
function lastDeepMinimum(slow_rate: Float64Array, from: number, to: number): number {
  const deepest = argMin(slow_rate, from, to);
  if (deepest < 0) return to;
  const deep = localMinima(slow_rate, from, to).filter((i) => slow_rate[i] < DEEP * slow_rate[deepest]);
  return deep.length > 0 ? deep[deep.length - 1] : deepest;
}

/**
 * Greatest local maximum of the rate in late contact. It lies within the time that a knee takes to fold before the last deep
 * minimum; in first steps the rate has maxima as high before touchdown. At the recording's end the fold may be cut off: then any counts.
 */
function greatestLateRate(
  slow_rate: Float64Array,
  from: number,
  to: number,
  stride: number,
  { shank_windows: w }: AnalysisSettings,
): number {
  const until = to - w.fold * stride;
  const late = localMaxima(slow_rate, from, until);
  const folded = lastDeepMinimum(slow_rate, from, to);
  const folding = late.filter((i) => i >= folded - w.folding * stride && i < folded);
  return best(folding.length > 0 ? folding : late, (i) => slow_rate[i]);
}
