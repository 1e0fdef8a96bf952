import type { Contact } from '../../shared/analysis.ts';
import type { StrideSettings } from '../settings/strides.ts';

/**
 * On a treadmill the belt's speed is every step's speed, and what the belt travels in a step is the step's length.
 * Rows are changed in place.
 * @param belt_speed_mps above 0
 */
export function fillFromBelt(rows: Contact[], belt_speed_mps: number, settings: StrideSettings): void {
  const { belt_share_u } = settings;
  let distance = 0;
  for (const row of rows) {
    row.speed_mps = belt_speed_mps;
    row.speed_mps_u = belt_share_u * belt_speed_mps;
    row.spatial_source = 'belt';
    if (rows[0] !== row) distance = belt_speed_mps * (row.touchdown_s - rows[0].touchdown_s);
    row.distance_m = distance;
    row.distance_m_u = Math.hypot(belt_share_u * distance, belt_speed_mps * (row.touchdown_s_u ?? 0));
    if (row.step_time_ms !== null) {
      row.step_length_m = (belt_speed_mps * row.step_time_ms) / 1000;
      row.step_length_m_u = Math.hypot(
        belt_share_u * row.step_length_m,
        (belt_speed_mps * (row.step_time_ms_u ?? 0)) / 1000,
      );
    }
  }
}
