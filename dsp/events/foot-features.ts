import { derivative } from '../filters/index.ts';
import type { AnalysisSettings } from '../settings.ts';
import { argMax, argMin, best, firstCrossing, localMaxima, localMinima, vertex } from './peaks.ts';
import type { StrideFrame } from './stride-frame.ts';

/** What a foot sensor shows of one contact; fractional indices of the frame's columns. */
export interface FootFeatures {
  mounting: 'foot';
  /** First minimum of the forward rate after it turned backward: the foot slaps down or stops turning. */
  rate_minimum: number;
  /** Steepest rise of the vertical acceleration about there; null when it has none. */
  impact_rise: number | null;
  /** Least rotation in mid-contact: the foot rests. */
  mid: number;
  /** Fastest heel rise at the end of contact (Falbriard et al. 2018, doi 10.3389/fphys.2018.00610). */
  push_minimum: number;
}

/**
 * Finds the features of touchdown and toe-off in a foot sensor's stride. Windows are shares of the stride time, so that
 * a sprint's stride is searched as a jog's, only faster.
 * @param slow_rate forward rate, low-passed further: it leaves one minimum a push-off
 * @returns null when the stride does not turn as a running foot does
 */
export function footFeatures(
  frame: StrideFrame,
  slow_rate: Float64Array,
  settings: AnalysisSettings,
): FootFeatures | null {
  const { rate, up, rate_hz, stride_s, from, to } = frame;
  const stride = stride_s * rate_hz;
  const w = settings.foot_windows;
  const zero = firstCrossing(rate, from, to, 0, 'falling');
  if (zero === null) return null;
  const landing = argMin(rate, zero, zero + w.landing * stride);
  if (landing <= zero) return null;
  const push = pushOff(slow_rate, landing + w.shortest_contact * stride, to);
  if (push < 0) return null;
  const near = localMinima(rate, push - w.push * stride, push + w.push * stride);
  const turn = best(near, (i) => -Math.abs(i - push));
  const push_minimum = vertex(rate, turn >= 0 ? turn : push);
  const mid_until = push_minimum - w.mid_before_push * (push_minimum - landing);
  return {
    mounting: 'foot',
    rate_minimum: vertex(rate, landing),
    impact_rise: firstSteepRise(
      derivative(up, rate_hz),
      landing - w.impact_before * stride,
      landing + w.impact_after * stride,
    ),
    mid: leastRotation(slow_rate, landing + w.mid_after_landing * stride, mid_until),
    push_minimum,
  };
}

/** The first steep rise: a heel's counts before the forefoot's, if it is at least half as steep as the steepest. */
function firstSteepRise(slope: Float64Array, from: number, to: number): number | null {
  const rises = localMaxima(slope, from, to);
  const steepest = best(rises, (i) => slope[i]);
  const first = rises.find((i) => slope[i] >= Math.min(slope[steepest], 0.5 * slope[steepest]));
  return first === undefined ? null : vertex(slope, first);
}

/** First deep minimum of the slow rate after mid-contact; a second one, deeper at times, is the knee's fold in swing. */
function pushOff(slow_rate: Float64Array, from: number, to: number): number {
  const deepest = argMin(slow_rate, from, to);
  if (deepest < 0) return -1;
  return localMinima(slow_rate, from, to).find((i) => slow_rate[i] < 0.5 * slow_rate[deepest]) ?? -1;
}

function leastRotation(slow_rate: Float64Array, from: number, to: number): number {
  return argMax(
    slow_rate.map((value) => -Math.abs(value)),
    from,
    to,
  );
}
