import type { Contact, Course } from '../../shared/analysis.ts';
import { distanceAt } from '../fit/index.ts';
import { SHARED_PART } from '../repetitions/step-times.ts';
import type { StrideSettings } from '../settings/strides.ts';
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
  for (const [i, row] of rows.entries()) {
    if (row.speed_mps !== null && row.contact_time_ms !== null) {
      row.contact_length_m = (row.speed_mps * row.contact_time_ms) / 1000;
      row.contact_length_m_u = Math.hypot(
        ((row.speed_mps_u ?? 0) * row.contact_time_ms) / 1000,
        (row.speed_mps * (row.contact_time_ms_u ?? 0)) / 1000,
      );
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
        const { over_s, over_next_s, over_u } = overTheFoot(row, nextOfFoot(rows, i));
        const value = distanceAt(curve.fit, t + time_s + over_next_s) - distanceAt(curve.fit, t + over_s);
        const parameters =
          row.speed_mps && row.speed_mps_u ? row.speed_mps_u / row.speed_mps : settings.timing.model_share_u;
        estimates.push({ value, u: Math.hypot(parameters * value, (value / time_s) * Math.hypot(time_u, over_u)) });
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

function nextOfFoot(rows: Contact[], i: number): Contact | undefined {
  return rows.slice(i + 1, i + 3).find((other) => other.side === rows[i].side);
}

/**
 * When the body is over the foot, after touchdown, in this contact and in the foot's next: in their middle. From there to
 * there the body travels as far as the foot does; from touchdown to touchdown it travels less while the runner speeds up
 * and the foot comes down further and further ahead. An offset of the foot's contact times drops out.
 */
function overTheFoot(row: Contact, next: Contact | undefined): { over_s: number; over_next_s: number; over_u: number } {
  if (row.contact_time_ms === null || !next || next.contact_time_ms === null) {
    return { over_s: 0, over_next_s: 0, over_u: 0 };
  }
  const own = Math.sqrt(1 - SHARED_PART) * Math.hypot(row.contact_time_ms_u ?? 0, next.contact_time_ms_u ?? 0);
  return { over_s: row.contact_time_ms / 2000, over_next_s: next.contact_time_ms / 2000, over_u: own / 2000 };
}
