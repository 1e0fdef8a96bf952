import { because } from '../../shared/reason.ts';
import type { Contact } from '../../shared/analysis.ts';
import { distanceAt, distanceGradient, parameterVariance, speedAt } from '../fit/index.ts';
import type { StrideSettings } from '../settings/strides.ts';
import type { TimedCurve } from './speed-from-timing.ts';

/** Speed, step length and distance of every step within the timed course. Rows are changed in place. */
export function fillFromTiming(rows: Contact[], curve: TimedCurve, settings: StrideSettings): void {
  const { model_share_u, start_place_m_u } = settings.timing;
  for (const row of rows) {
    if (row.touchdown_s >= curve.end_s) {
      row.reasons.step_length_m = because('after_last_time');
      continue;
    }
    fillDistance(row, curve, start_place_m_u);
    if (row.step_time_ms !== null)
      fillStep(row, row.step_time_ms / 1000, (row.step_time_ms_u ?? 0) / 1000, curve, model_share_u);
    else row.reasons.step_length_m = row.reasons.step_time_ms ?? because('no_step_time');
    if (curve.caution) row.reasons.step_length_m_u = curve.caution;
  }
}

function fillDistance(row: Contact, { fit, zero_s, zero_s_u }: TimedCurve, start_place_m_u: number): void {
  const t = row.touchdown_s - zero_s;
  const v = speedAt(fit, t);
  row.distance_m = distanceAt(fit, t) - fit.run_at_clock_zero_m;
  const parameters = parameterVariance(fit, distanceGradient(fit, Math.max(0, t)));
  row.distance_m_u = Math.hypot(
    Math.sqrt(parameters),
    v * Math.hypot(row.touchdown_s_u ?? 0, zero_s_u),
    start_place_m_u,
  );
}

function fillStep(
  row: Contact,
  step_s: number,
  step_s_u: number,
  { fit, zero_s, zero_s_u, from }: TimedCurve,
  model_share_u: number,
): void {
  const [t0, t1] = [row.touchdown_s - zero_s, row.touchdown_s - zero_s + step_s];
  const length = distanceAt(fit, t1) - distanceAt(fit, t0);
  const speed = length / step_s;
  const [g0, g1] = [distanceGradient(fit, Math.max(0, t0)), distanceGradient(fit, Math.max(0, t1))];
  const parameters = parameterVariance(fit, { vmax: g1.vmax - g0.vmax, tau: g1.tau - g0.tau });
  const late = (speedAt(fit, t1) - speedAt(fit, t0)) * zero_s_u;
  // What the curve does not know; the step's own timing error comes on top for the length, not for the speed.
  const curve_u = Math.hypot(Math.sqrt(parameters), late, model_share_u * length);
  row.step_length_m = length;
  row.step_length_m_u = Math.hypot(curve_u, speed * step_s_u);
  row.speed_mps = speed;
  row.speed_mps_u = curve_u / step_s;
  row.spatial_source = from === 'combined' || from === 'foot_sensor' ? from : 'timing';
}
