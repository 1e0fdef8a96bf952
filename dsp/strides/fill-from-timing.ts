import type { Contact } from '../../shared/analysis.ts';
import { distanceAt, distanceGradient, type SprintFit, speedAt } from '../fit/index.ts';
import type { TimedCurve } from './speed-from-timing.ts';

/**
 * How far real sprints leave the mono-exponential within a step, as a share of speed. Source: de Ruiter and van Dieen
 * 2019, doi 10.3390/sports7090202 (step velocity follows it with R2 >= 0.96, step length with 5.7 cm after smoothing,
 * video's own error included).
 */
const MODEL_SHARE = 0.015;
/** Where the body's centre is over the line at the start, standard uncertainty, m. Common practice. */
const START_PLACE_U_M = 0.1;
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
  row.distance_m = distanceAt(fit, t) - fit.run_at_clock_zero_m;
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
