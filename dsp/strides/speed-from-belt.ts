import type { Contact } from '../../shared/analysis.ts';
import type { StrideSettings } from '../settings/strides.ts';
import { fillSpeedOfStep } from './fill-speed-of-step.ts';

/**
 * On a treadmill the belt's speed is every step's speed, and what the belt travels in a step is the step's length.
 * Rows are changed in place.
 * @param belt_speed_mps above 0
 */
export function fillFromBelt(rows: Contact[], belt_speed_mps: number, settings: StrideSettings): void {
  const { belt_share_u } = settings;
  let distance = 0;
  for (const row of rows) {
    fillSpeedOfStep(row, belt_speed_mps, belt_share_u * belt_speed_mps, 'belt');
    if (rows[0] !== row) distance = belt_speed_mps * (row.touchdown_s - rows[0].touchdown_s);
    row.distance_m = distance;
    row.distance_m_u = Math.hypot(belt_share_u * distance, belt_speed_mps * (row.touchdown_s_u ?? 0));
  }
}
