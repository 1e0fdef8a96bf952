import type { Contact } from '../../shared/analysis.ts';

/**
 * A step whose speed is known by itself: its length is that speed times the step's time, with the errors of both. Changed in place.
 * @param speed_mps of the step, m/s
 * @param speed_mps_u its standard uncertainty, m/s
 */
export function fillSpeedOfStep(
  row: Contact,
  speed_mps: number,
  speed_mps_u: number,
  source: NonNullable<Contact['spatial_source']>,
): void {
  row.speed_mps = speed_mps;
  row.speed_mps_u = speed_mps_u;
  row.spatial_source = source;
  if (row.step_time_ms === null) return;
  const step_s = row.step_time_ms / 1000;
  row.step_length_m = speed_mps * step_s;
  row.step_length_m_u = Math.hypot(speed_mps_u * step_s, (speed_mps * (row.step_time_ms_u ?? 0)) / 1000);
}
