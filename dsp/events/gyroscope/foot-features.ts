import type { AnalysisSettings } from '../../settings/settings.ts';
import { argMax, argMin, best, firstCrossing, localMinima, vertex } from '../../numeric/peaks.ts';
import type { StrideFrame } from '../stride-frame.ts';
import type { SegmentFeatures } from './segment-features.ts';

/** What a foot sensor shows of one contact; its middle is where it turns least, since the foot rests. */
export interface FootFeatures extends SegmentFeatures {
  /** First minimum of the forward rate after it turned backward: the foot slaps down or stops turning. */
  rate_minimum: number;
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
  const { rate, rate_hz, stride_s, from, to } = frame;
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
    turn: zero,
    rate_minimum: vertex(rate, landing),
    landing_from: zero - w.landing_before_turn * stride,
    landing_to: Math.max(landing + w.landing_after * stride, push_minimum - w.landing_before_push * stride),
    soft_from: landing - w.impact_before * stride,
    soft_to: landing + w.impact_after * stride,
    mid: leastRotation(slow_rate, landing + w.mid_after_landing * stride, mid_until),
    push_minimum,
  };
}

/** A minimum counts as a push-off when it is this part as deep as the deepest one, which may be the knee's fold in swing. */
const DEEP = 0.5;
/** A dip that rises by less than this part of its depth before a deeper one is a ripple on the way down. */
const RIPPLE = 0.05;

/** First deep minimum of the slow rate after mid-contact. */
function pushOff(slow_rate: Float64Array, from: number, to: number): number {
  const deepest = argMin(slow_rate, from, to);
  if (deepest < 0) return -1;
  const deep = localMinima(slow_rate, from, to).filter((i) => slow_rate[i] < DEEP * slow_rate[deepest]);
  const push = deep.find((i) => {
    const deeper = deep.find((k) => k > i && slow_rate[k] < slow_rate[i]);
    if (deeper === undefined) return true;
    const crest = slow_rate[argMax(slow_rate, i, deeper)];
    return crest - slow_rate[i] > RIPPLE * Math.abs(slow_rate[i]);
  });
  return push ?? -1;
}

function leastRotation(slow_rate: Float64Array, from: number, to: number): number {
  return argMax(
    slow_rate.map((value) => -Math.abs(value)),
    from,
    to,
  );
}
