import type { Contact, Course } from '../../shared/analysis.ts';
import { distanceAt } from '../fit/index.ts';
import type { StrideSettings } from '../settings-strides.ts';
import type { TrackedContact } from './foot-track.ts';
import type { TimedCurve } from './speed-from-timing.ts';

/**
 * Stride length of every contact: from the foot sensor, from the curve of the times, or the mean of both weighted by
 * their uncertainty; on a treadmill the belt's way. Contact length is speed times contact time. Rows are changed in
 * place.
 */
export function fillStrideLengths(
  rows: Contact[],
  tracked: TrackedContact[],
  curve: TimedCurve | null,
  course: Course,
  settings: StrideSettings,
): void {
  // Together with times, the foot sensors' common scale has been found.
  const scale = 1 + (curve?.from === 'combined' ? curve.fit.own[0] : 0);
  const byRow = new Map(tracked.map((contact) => [contact.row, contact.stride]));
  for (const row of rows) {
    if (row.speed_mps !== null && row.contact_time_ms !== null) {
      row.contact_length_m = (row.speed_mps * row.contact_time_ms) / 1000;
    }
    const estimates: { value: number; u: number }[] = [];
    const time_s = row.stride_time_ms === null ? null : row.stride_time_ms / 1000;
    const time_u = (row.stride_time_ms_u ?? 0) / 1000;
    if (course.belt_speed_mps !== null) {
      if (time_s === null) continue;
      const value = course.belt_speed_mps * time_s;
      estimates.push({ value, u: Math.hypot(settings.belt_share_u * value, course.belt_speed_mps * time_u) });
    } else {
      if (curve && time_s !== null && row.touchdown_s + time_s < curve.end_s + time_s / 2) {
        const t = row.touchdown_s - curve.zero_s;
        const value = distanceAt(curve.fit, t + time_s) - distanceAt(curve.fit, t);
        const parameters =
          row.speed_mps && row.speed_mps_u ? row.speed_mps_u / row.speed_mps : settings.timing.model_share_u;
        estimates.push({ value, u: Math.hypot(parameters * value, (value / time_s) * time_u) });
      }
      const stride = byRow.get(row);
      if (stride && 'length_m' in stride) estimates.push({ value: stride.length_m / scale, u: stride.length_m_u });
      else if (stride) row.reasons.stride_length_m = stride.reason;
    }
    if (estimates.length === 0) continue;
    const weights = estimates.map(({ u }) => 1 / (u * u));
    const total = weights.reduce((a, b) => a + b, 0);
    row.stride_length_m = estimates.reduce((sum, { value }, i) => sum + value * weights[i], 0) / total;
    row.stride_length_m_u = 1 / Math.sqrt(total);
    delete row.reasons.stride_length_m;
  }
}
