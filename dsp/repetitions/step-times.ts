import type { Contact } from '../../shared/analysis.ts';
import type { Side } from '../../shared/words.ts';

const MS = 1000;

/**
 * Fills in everything that follows from the instants: flight, swing, step and stride time, step rate, duty factor,
 * each with its standard uncertainty by first-order propagation of independent errors (GUM, JCGM 100:2008, 5.1.2).
 * With one foot alone the other foot's touchdown is taken to fall half a stride later, and the row says so.
 * @param rows contacts of one repetition in time order; changed in place
 * @param max_step_s a longer step means that a contact between was missed: the values stay empty
 */
export function fillStepTimes(rows: Contact[], max_step_s: number): void {
  const both = new Set(rows.map((row) => row.side)).size > 1;
  rows.forEach((row, i) => {
    const same = nextOf(rows, i, (side) => side === row.side);
    if (same && same.touchdown_s - row.touchdown_s <= 2 * max_step_s) fillStride(row, same);
    const other = both ? nextOf(rows, i, (side) => side !== row.side) : null;
    const directNeighbour = both && other === rows[i + 1] ? other : null;
    if (directNeighbour && directNeighbour.touchdown_s - row.touchdown_s <= max_step_s) {
      fillStep(row, directNeighbour.touchdown_s, directNeighbour.touchdown_s_u ?? 0);
    } else if (!both && row.stride_time_ms !== null && same) {
      fillStep(row, (row.touchdown_s + same.touchdown_s) / 2, symmetryError(row, same));
      row.assumes_symmetry = true;
      row.reasons.flight_time_ms = 'one foot alone: assumes that left and right are alike';
      row.reasons.step_time_ms = row.reasons.flight_time_ms;
    } else {
      row.reasons.step_time_ms = both ? 'no following contact of the other foot' : 'no following contact of this foot';
    }
  });
}

function nextOf(rows: Contact[], from: number, wanted: (side: Side) => boolean): Contact | null {
  for (let i = from + 1; i < rows.length; i++) if (wanted(rows[i].side)) return rows[i];
  return null;
}

function fillStride(row: Contact, next: Contact): void {
  const stride = next.touchdown_s - row.touchdown_s;
  row.stride_time_ms = stride * MS;
  const u_stride = Math.hypot(row.touchdown_s_u ?? 0, next.touchdown_s_u ?? 0);
  row.stride_time_ms_u = u_stride * MS;
  if (row.toe_off_s === null || row.contact_time_ms === null) return;
  row.swing_time_ms = (next.touchdown_s - row.toe_off_s) * MS;
  row.swing_time_ms_u = Math.hypot(row.toe_off_s_u ?? 0, next.touchdown_s_u ?? 0) * MS;
  row.duty_factor = row.contact_time_ms / row.stride_time_ms;
  row.duty_factor_u =
    row.duty_factor * Math.hypot((row.contact_time_ms_u ?? 0) / row.contact_time_ms, u_stride / stride);
}

function fillStep(row: Contact, next_touchdown_s: number, next_u: number): void {
  const step = next_touchdown_s - row.touchdown_s;
  const u = Math.hypot(row.touchdown_s_u ?? 0, next_u);
  row.step_time_ms = step * MS;
  row.step_time_ms_u = u * MS;
  row.step_rate_hz = 1 / step;
  row.step_rate_hz_u = u / (step * step);
  if (row.toe_off_s === null) return;
  row.flight_time_ms = (next_touchdown_s - row.toe_off_s) * MS;
  row.flight_time_ms_u = Math.hypot(row.toe_off_s_u ?? 0, next_u) * MS;
}

/** Typical left-right difference of step time, as a share of it. Common practice: 2 to 3 % in healthy runners. */
const SIDE_DIFFERENCE = 0.025;

function symmetryError(row: Contact, next: Contact): number {
  const step = (next.touchdown_s - row.touchdown_s) / 2;
  return Math.hypot((row.touchdown_s_u ?? 0) / 2, (next.touchdown_s_u ?? 0) / 2, SIDE_DIFFERENCE * step);
}
