import { derivative } from '../filters/index.ts';
import type { AnalysisSettings } from '../settings.ts';
import { argMax, argMin, best, firstCrossing, localMaxima, localMinima, vertex } from './peaks.ts';
import type { StrideFrame } from './stride-frame.ts';

/** Instants found in one stride, as fractional indices of the frame's columns; missing where a feature is not there. */
export type Instants = Record<string, number>;

/** One contact's instants of a foot sensor, before they are fused. */
export interface ContactInstants {
  touchdown: Instants;
  toe_off: Instants;
  /** Foot flat: the instant of least rotation between the two, as an index. */
  mid: number;
}

/**
 * Features of touchdown and toe-off in a foot sensor's stride. Windows are shares of the stride time, so a sprint's stride
 * is searched as a jog's, only faster.
 * @returns null when the stride does not turn as a running foot does
 */
export function footInstants(
  frame: StrideFrame,
  slow_rate: Float64Array,
  settings: AnalysisSettings,
): ContactInstants | null {
  const { rate, up, forward, rate_hz, stride_s, from, to } = frame;
  const stride = stride_s * rate_hz;
  const w = settings.foot_windows;
  const zero = firstCrossing(rate, from, to, 0, 'falling');
  if (zero === null) return null;
  const landing = argMin(rate, zero, zero + w.landing * stride);
  if (landing < 0 || landing <= zero) return null;
  const touchdown: Instants = { rate_minimum: vertex(rate, landing) };
  const rise = derivative(up, rate_hz);
  const rises = localMaxima(rise, landing - w.impact_before * stride, landing + w.impact_after * stride);
  const steepest = best(rises, (i) => rise[i]);
  if (steepest >= 0) {
    const first = rises.find((i) => rise[i] >= 0.5 * rise[steepest]) ?? steepest;
    touchdown.impact_rise = vertex(rise, first);
    const top = localMaxima(up, first, first + w.impact_before * stride)[0];
    if (top !== undefined) touchdown.impact_peak = vertex(up, top);
  }

  const push = pushOff(slow_rate, landing + w.shortest_contact * stride, to);
  if (push < 0) return null;
  const turn = best(localMinima(rate, push - w.push * stride, push + w.push * stride), (i) => -Math.abs(i - push));
  const q = turn >= 0 ? turn : push;
  const toe_off: Instants = { rate_minimum: vertex(rate, q) };
  const fall = argMin(rise, q - 0.02 * stride, q + 0.09 * stride);
  if (fall >= 0) toe_off.unloading = vertex(rise, fall);
  const lull = best(localMinima(forward, q, q + 0.11 * stride), (i) => -forward[i]);
  if (lull >= 0) toe_off.forward_minimum = vertex(forward, lull);
  const mid = leastRotation(slow_rate, landing + 0.03 * stride, q - 0.2 * (q - landing));
  return { touchdown, toe_off, mid };
}

/** First deep minimum of the slow rate after mid-contact: the heel is rising fastest. */
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
