import { derivative } from '../filters/index.ts';
import type { AnalysisSettings } from '../settings.ts';
import type { ContactInstants, Instants } from './foot-candidates.ts';
import { argMax, argMin, best, firstCrossing, localMaxima, localMinima, vertex } from './peaks.ts';
import type { StrideFrame } from './stride-frame.ts';

/** Features of touchdown and toe-off in a shank sensor's stride; see `footInstants`. */
export function shankInstants(
  frame: StrideFrame,
  slow_rate: Float64Array,
  settings: AnalysisSettings,
): ContactInstants | null {
  const { rate, up, forward, norm, rate_hz, stride_s, from, to } = frame;
  const stride = stride_s * rate_hz;
  const w = settings.shank_windows;
  const zero = firstCrossing(slow_rate, from, to, 0, 'falling');
  if (zero === null) return null;
  const touchdown: Instants = {};
  const rise = derivative(up, rate_hz);
  const height = (i: number): number => up[i] - up[argMin(up, Math.max(0, zero - w.impact_before * stride), i)];
  const tops = localMaxima(up, zero, zero + w.landing * stride);
  const highest = best(tops, height);
  if (highest < 0) return null;
  const top = tops.find((i) => height(i) > 0.5 * height(highest)) ?? highest;
  touchdown.impact_peak = vertex(up, top);
  const steepest = argMax(rise, top - 0.065 * stride, top + 1);
  if (steepest >= 0) touchdown.impact_rise = vertex(rise, steepest);
  const near = best(localMaxima(norm, top - 0.045 * stride, top + 0.045 * stride), (i) => -Math.abs(i - top));
  if (near >= 0) {
    touchdown.norm_peak = vertex(norm, near);
    const norm_rise = derivative(norm, rate_hz);
    const s = argMax(norm_rise, near - 0.065 * stride, near + 1);
    if (s >= 0) touchdown.norm_rise = vertex(norm_rise, s);
    const low = localMinima(norm, near - 0.085 * stride, near).at(-1);
    if (low !== undefined) touchdown.norm_minimum = vertex(norm, low);
  }
  const landing = argMin(rate, zero, zero + 0.14 * stride);
  if (landing >= 0) touchdown.rate_minimum = vertex(rate, landing);

  const tops_late = localMaxima(slow_rate, zero + 0.1 * stride, to - 0.3 * stride);
  const peak = best(tops_late, (i) => slow_rate[i]);
  if (peak < 0) return null;
  const bottom = argMin(slow_rate, peak, peak + 0.25 * stride);
  const slope = derivative(slow_rate, rate_hz);
  const fall = argMin(slope, peak, bottom + 1);
  if (fall < 0) return null;
  const toe_off: Instants = { rate_maximum: vertex(slow_rate, peak), rate_fall: vertex(slope, fall) };
  const half = firstCrossing(slow_rate, peak, bottom + 1, 0.5 * (slow_rate[peak] + slow_rate[bottom]), 'falling');
  if (half !== null) toe_off.rate_half = half;
  const tenth = firstCrossing(slow_rate, peak, bottom + 1, 0.9 * slow_rate[peak] + 0.1 * slow_rate[bottom], 'falling');
  const c = tenth ?? fall;
  const push = best(localMaxima(forward, c - 0.1 * stride, c + 0.05 * stride), (i) => forward[i]);
  if (push >= 0) toe_off.forward_maximum = vertex(forward, push);
  const down = argMin(rise, c - 0.05 * stride, c + 0.08 * stride);
  if (down >= 0) toe_off.unloading = vertex(rise, down);
  return { touchdown, toe_off, mid: Math.round(top + 0.4 * (fall - top)) };
}
