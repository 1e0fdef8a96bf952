import { because } from '../../shared/reason.ts';
import { fitSprintCurve, timeAtDistance } from '../fit/index.ts';
import { mean } from '../numeric/statistics.ts';
import { type MeasuredStride, strideEvidence } from './foot-sensor-evidence.ts';
import { priorEffect } from './prior-effect.ts';
import type { TimedCurve } from './speed-from-timing.ts';
import type { StrideContext } from './stride-context.ts';

/**
 * The acceleration curve from the foot sensors' strides alone, where nobody took a time: from the first movement to the
 * fastest stride, or to the end of a course of known length.
 * @returns null where too few strides could be integrated
 */
export function speedFromStrides(context: StrideContext, all: MeasuredStride[]): TimedCurve | null {
  const { first_movement_s, course, settings } = context;
  if (first_movement_s === null) return null;
  const strides = withoutBreak(all, first_movement_s, settings.foot.longest_break_s);
  if (strides.length < LEAST_STRIDES) return null;
  const speeds = strides.map((s) => s.length_m / (s.to_s - s.from_s));
  // Three neighbours together, so that one stride's error makes no top; behind it the runner may slow at any time.
  const smooth = speeds.map((_, i) => mean(speeds.slice(Math.max(0, i - 1), i + 2)));
  const fastest = smooth.indexOf(Math.max(...smooth));
  const last = strides[fastest];
  const first_s_u = context.first_movement_s_u ?? settings.timing.first_movement_s_u;
  const extra = strideEvidence(strides, first_movement_s, first_s_u, last.to_s + 0.01, settings);
  const options = { tau: settings.timing.tau_s, extra, vmax_start_mps: speeds[fastest] };
  const fit = extra && fitSprintCurve([], options);
  if (!fit) return null;
  const zero_s = first_movement_s + fit.own[1];
  const end = course.distance_m === null ? last.to_s : zero_s + timeAtDistance(fit, course.distance_m);
  return {
    fit,
    zero_s,
    zero_s_u: fit.own_u[1],
    end_s: Math.min(end, last.to_s),
    from: 'foot_sensor',
    caution: because('from_foot_sensors_alone'),
    priors: () => priorEffect([], options, fit, true),
  };
}

/** A curve of two parameters and a start needs more than so many strides. */
const LEAST_STRIDES = 4;

/** The strides from the start on until one is missing: a curve says nothing of what lies between those measured. */
function withoutBreak(strides: MeasuredStride[], from_s: number, longest_s: number): MeasuredStride[] {
  let covered_s = from_s;
  const end = strides.findIndex((stride) => {
    const missing = stride.from_s - covered_s > longest_s;
    covered_s = Math.max(covered_s, stride.to_s);
    return missing;
  });
  return end < 0 ? strides : strides.slice(0, end);
}
