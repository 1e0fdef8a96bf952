import type { Contact, SpeedCurve } from '../../shared/analysis.ts';
import { distanceAt, distanceGradient, fitSprintCurve, type SprintFit, speedAt, timeAtDistance } from '../fit/index.ts';
import { contactTimeEvidence } from './contact-time-evidence.ts';
import { timedDistances, timeShiftPrior } from './course-timing.ts';
import { type MeasuredStride, strideEvidence } from './foot-sensor-evidence.ts';
import type { StrideContext } from './stride-context.ts';

/**
 * How far real sprints leave the mono-exponential within a step, as a share of speed. Source: de Ruiter and van Dieen 2019,
 * doi 10.3390/sports7090202 (step velocity follows it with R2 >= 0.96, step length with 5.7 cm after smoothing, video's own
 * error included).
 */
const MODEL_SHARE = 0.015;
/** Where the body's centre is over the line at the start, standard uncertainty, m. Common practice. */
const START_PLACE_U_M = 0.1;
/** Approach to top speed when nothing else tells. Published: 1.22 s (Berlin 2009 splits) to 1.47 s (di Prampero 2005). */
const TAU_PRIOR = { value: 1.3, u: 0.25 };
/** Of a first movement whose uncertainty nobody stated, s. */
const FIRST_MOVEMENT_U_S = 0.03;
/** First touchdown after the first movement where the movement itself was not seen, s. Common practice. */
const FIRST_TOUCHDOWN = { value: 0.4, u: 0.1 };

/** The acceleration curve of one repetition, tied to the rows' clock. */
export interface TimedCurve {
  fit: SprintFit;
  /** First movement on the rows' clock, s. */
  zero_s: number;
  zero_s_u: number;
  /** When the last timed distance is reached, on the rows' clock. */
  end_s: number;
  from: SpeedCurve['from'];
  /** Why the uncertainty is wide; empty otherwise. */
  caution: string;
}

/**
 * Fits v(t) = vmax (1 - exp(-t / tau)) to the course's times: with two or more from the times alone (the two-gate method of
 * de Ruiter and van Dieen 2019, generalised), with one from the time, the course of the contact times and a prior on tau. Where
 * foot sensors gave stride lengths, these join the fit: the times set the level, the strides the shape.
 * @param strides measured by foot sensors, may be none
 * @returns null with a reason when there is nothing to fit
 */
export function speedFromTiming(
  rows: Contact[],
  context: StrideContext,
  strides: MeasuredStride[] = [],
): TimedCurve | { reason: string } {
  const times = timedDistances(context.course);
  if (times.length === 0) return { reason: 'no time over a known distance' };
  if (rows.length === 0) return { reason: 'no contacts' };
  const seen = context.first_movement_s !== null;
  const first_s = context.first_movement_s ?? rows[0].touchdown_s - FIRST_TOUCHDOWN.value;
  const first_s_u = seen ? (context.first_movement_s_u ?? FIRST_MOVEMENT_U_S) : FIRST_TOUCHDOWN.u;
  const time_shift = timeShiftPrior(context.course);
  const last = times[times.length - 1];
  const alone = times.length === 1;
  const end_s = first_s + last.time_s + time_shift.value;
  const fromStrides = strideEvidence(strides, first_s, first_s_u, end_s);
  const fit = fitSprintCurve(times, {
    time_shift,
    ...(alone && { tau: TAU_PRIOR }),
    extra: fromStrides ?? (alone ? contactTimeEvidence(rows, first_s, end_s) : undefined),
  });
  if (!fit) return { reason: 'the times do not fit a sprint from rest; check them and the clock they run from' };
  const cautions = [
    alone &&
      !fromStrides &&
      'one time only: how fast top speed is approached comes from the contact times and from what is usual',
    !seen && 'the first movement was not seen: taken as 0.4 s before the first touchdown',
  ].filter(Boolean);
  const zero_s = first_s + (fromStrides ? fit.own[1] : 0);
  return {
    fit,
    zero_s,
    zero_s_u: fromStrides ? fit.own_u[1] : first_s_u,
    end_s: zero_s + last.time_s + fit.time_shift_s,
    from: fromStrides ? 'combined' : alone ? 'time and steps' : 'splits',
    caution: cautions.join('; '),
  };
}

/**
 * The acceleration curve from the foot sensors' strides alone, where nobody took a time: from the first movement to the fastest
 * stride, or to the end of a course of known length.
 */
export function speedFromStrides(context: StrideContext, strides: MeasuredStride[]): TimedCurve | null {
  const { first_movement_s, course } = context;
  if (first_movement_s === null || strides.length < 4) return null;
  const speeds = strides.map((s) => s.length_m / (s.to_s - s.from_s));
  const fastest = speeds.indexOf(Math.max(...speeds));
  // A stride or two beyond the fastest one, so that the curve levels off where the runner does.
  const last = strides[Math.min(strides.length - 1, fastest + 2)];
  const first_s_u = context.first_movement_s_u ?? FIRST_MOVEMENT_U_S;
  const extra = strideEvidence(strides, first_movement_s, first_s_u, last.to_s + 0.01);
  const fit = extra && fitSprintCurve([], { tau: TAU_PRIOR, extra, vmax_start_mps: speeds[fastest] });
  if (!fit) return null;
  const zero_s = first_movement_s + fit.own[1];
  const end = course.distance_m === null ? last.to_s : zero_s + timeAtDistance(fit, course.distance_m);
  return {
    fit,
    zero_s,
    zero_s_u: fit.own_u[1],
    end_s: Math.min(end, last.to_s),
    from: 'foot_sensor',
    caution: 'from the foot sensors alone: no time over a known distance',
  };
}

/** Speed, step length and distance of every step within the timed course. Rows are changed in place. */
export function fillFromTiming(rows: Contact[], curve: TimedCurve): void {
  for (const row of rows) {
    if (row.touchdown_s >= curve.end_s) {
      row.reasons.step_length_m = 'after the last timed distance';
      continue;
    }
    fillDistance(row, curve);
    if (row.step_time_ms !== null) fillStep(row, row.step_time_ms / 1000, (row.step_time_ms_u ?? 0) / 1000, curve);
    else row.reasons.step_length_m = row.reasons.step_time_ms ?? 'no step time';
    if (curve.caution) row.reasons.step_length_m_u = curve.caution;
  }
}

function fillDistance(row: Contact, { fit, zero_s, zero_s_u }: TimedCurve): void {
  const t = row.touchdown_s - zero_s;
  const v = speedAt(fit, t);
  row.distance_m = distanceAt(fit, t);
  const parameters = parameterVariance(fit, distanceGradient(fit, Math.max(0, t)));
  row.distance_m_u = Math.hypot(
    Math.sqrt(parameters),
    v * Math.hypot(row.touchdown_s_u ?? 0, zero_s_u),
    START_PLACE_U_M,
  );
}

function fillStep(row: Contact, step_s: number, step_s_u: number, { fit, zero_s, zero_s_u, from }: TimedCurve): void {
  const [t0, t1] = [row.touchdown_s - zero_s, row.touchdown_s - zero_s + step_s];
  const length = distanceAt(fit, t1) - distanceAt(fit, t0);
  const speed = length / step_s;
  const [g0, g1] = [distanceGradient(fit, Math.max(0, t0)), distanceGradient(fit, Math.max(0, t1))];
  const parameters = parameterVariance(fit, { vmax: g1.vmax - g0.vmax, tau: g1.tau - g0.tau });
  const late = (speedAt(fit, t1) - speedAt(fit, t0)) * zero_s_u;
  // What the curve does not know; the step's own timing error comes on top for the length, not for the speed.
  const curve_u = Math.hypot(Math.sqrt(parameters), late, MODEL_SHARE * length);
  row.step_length_m = length;
  row.step_length_m_u = Math.hypot(curve_u, speed * step_s_u);
  row.speed_mps = speed;
  row.speed_mps_u = curve_u / step_s;
  row.spatial_source = from === 'combined' || from === 'foot_sensor' ? from : 'timing';
}

/** Variance of a quantity with the given derivatives by vmax and tau. */
function parameterVariance({ covariance: c }: SprintFit, g: { vmax: number; tau: number }): number {
  return Math.max(0, g.vmax * g.vmax * c[0][0] + 2 * g.vmax * g.tau * c[0][1] + g.tau * g.tau * c[1][1]);
}

/** The curve as it is reported. */
export function reportedCurve({ fit, from, zero_s_u }: TimedCurve): SpeedCurve {
  return {
    vmax_mps: fit.vmax_mps,
    vmax_mps_u: Math.sqrt(fit.covariance[0][0]),
    tau_s: fit.tau_s,
    // Contact times move with the first movement, and tau by about as much; strides find it in the fit itself.
    tau_s_u: Math.hypot(Math.sqrt(fit.covariance[1][1]), from === 'time and steps' ? zero_s_u : 0),
    time_shift_s: fit.time_shift_s,
    time_shift_s_u: Math.sqrt(fit.covariance[2][2]),
    residual_s: fit.residual_s,
    from,
  };
}
