import { because, type CodedReason } from '../../shared/reason.ts';
import type { Contact } from '../../shared/analysis.ts';
import type { Side } from '../../shared/words.ts';
import { median } from '../numeric/statistics.ts';
import { type ContactInterval, contactIntervals } from './contact-intervals.ts';
import type { FeetApart } from './feet-apart.ts';

const MS = 1000;

/**
 * Fills in everything that follows from the instants: flight, swing, step and stride time, step rate, duty factor,
 * each with its standard uncertainty by first-order propagation (GUM, JCGM 100:2008, 5.1.2). Errors of two instants are
 * taken for independent, but for two touchdowns of one foot: what they share drops out of the stride time.
 * With one foot alone the other foot's touchdown is taken to fall half a stride later, and the row says so. Where a contact
 * was missed, what reaches over it stays empty with a reason.
 * @param rows contacts of one repetition in time order; changed in place
 * @param between_feet_s_u how well the two feet's clocks are known against each other
 * @param feet where the two feet contradict each other: what is built on both is then left out, or the contacts are counted as if they agreed
 * @returns what lies between each contact and the next
 */
export function fillStepTimes(rows: Contact[], between_feet_s_u = 0, feet: FeetApart | null = null): ContactInterval[] {
  const both = new Set(rows.map((row) => row.side)).size > 1;
  const intervals = contactIntervals(
    rows.map(({ side, touchdown_s }) => ({
      side,
      touchdown_s: touchdown_s - (side === 'right' ? (feet?.apart_s ?? 0) : 0),
    })),
  );
  const shared = sharedErrors(rows);
  const nexts = rows.map((row, i) => nextOf(rows, i, (side) => side === row.side));
  rows.forEach((row, i) => {
    const same = wholeStride(rows, nexts, intervals, i) ? rows[nexts[i]] : null;
    if (same) fillStride(row, same, shared.get(row.side) ?? 0);
    const interval = intervals[i];
    const other = both && !feet?.empty && interval?.steps === 1 && !interval.odd ? rows[i + 1] : null;
    if (other) {
      fillStep(row, other.touchdown_s, Math.hypot(other.touchdown_s_u ?? 0, between_feet_s_u));
    } else if (!both && row.stride_time_ms !== null && same) {
      fillStep(row, (row.touchdown_s + same.touchdown_s) / 2, symmetryError(row, same));
      row.assumes_symmetry = true;
      row.reasons.flight_time_ms = because('one_foot_alone');
      row.reasons.step_time_ms = row.reasons.flight_time_ms;
    } else {
      const why = both && feet?.empty ? because('feet_disagree') : whyNoStep(interval, both);
      for (const field of OF_A_STEP) row.reasons[field] ??= why;
    }
    if (!same) {
      const over = intervals.slice(i, i + 2).find(({ missing, odd }) => missing > 0 || odd);
      for (const field of OF_A_STRIDE) row.reasons[field] ??= whyNoStep(over, false);
    }
  });
  return intervals;
}

/** Left empty with one reason where the next contact is missing. What is built on them takes it over. */
const OF_A_STEP = ['step_time_ms', 'flight_time_ms', 'step_rate_hz'];
const OF_A_STRIDE = ['stride_time_ms', 'swing_time_ms', 'duty_factor'];

function whyNoStep(interval: ContactInterval | undefined, both: boolean): CodedReason {
  if (interval && interval.missing > 0) return because('contacts_missing_after', { contacts: interval.missing });
  if (interval?.odd) return because('step_unlike_neighbours');
  return both ? because('no_next_contact_of_other_foot') : because('no_next_contact_of_this_foot');
}

/** Index of the next contact of a wanted side; -1 for none. */
function nextOf(rows: Contact[], from: number, wanted: (side: Side) => boolean): number {
  for (let i = from + 1; i < rows.length; i++) if (wanted(rows[i].side)) return i;
  return -1;
}

/** A stride so many times the one before or after it has a contact missing: speeding up and slowing down change it less. */
const MISSING_RATIO = 1.6;

/** Whether a contact and the foot's next are one stride apart: two steps, and the stride is like its neighbours. */
function wholeStride(rows: Contact[], nexts: number[], intervals: ContactInterval[], i: number): boolean {
  const next = nexts[i];
  if (next < 0) return false;
  if (intervals.slice(i, next).reduce((sum, { steps }) => sum + steps, 0) !== 2) return false;
  const stride = (from: number): number | null =>
    from >= 0 && nexts[from] >= 0 ? rows[nexts[from]].touchdown_s - rows[from].touchdown_s : null;
  const neighbours = [stride(nexts.indexOf(i)), stride(next)].filter((s) => s !== null);
  return neighbours.every((neighbour) => stride(i)! <= MISSING_RATIO * neighbour);
}

/**
 * How much of a touchdown's variance all contacts of one foot share: the offset of the method on this foot and sensor.
 * Against force plates (recordings of `settings.ts`) stride times scatter by 2.5 ms and step times by 4.0 with the sensor on
 * the foot, 3.4 and 5.1 on the shank: offsets of 2.2 and 2.7 ms, different from foot to foot, beside an error of each
 * contact of 1.7 and 2.4.
 */
export const SHARED_PART = 0.6;

/** The error that the touchdowns of each foot share, s: the part of what is usual for the foot. */
function sharedErrors(rows: Contact[]): Map<Side, number> {
  const shared = new Map<Side, number>();
  for (const side of new Set(rows.map((row) => row.side))) {
    const errors = rows.filter((row) => row.side === side).map((row) => row.touchdown_s_u ?? 0);
    shared.set(side, Math.sqrt(SHARED_PART) * median(errors));
  }
  return shared;
}

function fillStride(row: Contact, next: Contact, shared_s: number): void {
  const stride = next.touchdown_s - row.touchdown_s;
  row.stride_time_ms = stride * MS;
  const own = (u: number | null): number => Math.sqrt(Math.max(0, (u ?? 0) ** 2 - Math.min(shared_s, u ?? 0) ** 2));
  const u_stride = Math.hypot(own(row.touchdown_s_u), own(next.touchdown_s_u));
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
