import type { Contact, MissingContacts } from '../../shared/analysis.ts';
import { type Fault, fault } from '../../shared/fault.ts';
import type { ContactInterval } from './contact-intervals.ts';
import type { RecordedSpan } from './find-repetitions.ts';
import { median } from '../numeric/statistics.ts';

/** Samples lost for longer than this within an interval may have hidden its contact, s. */
const HIDING_S = 0.04;

/**
 * Where contacts of a repetition are missing, and how many: between those found, before the first, after the last.
 * @param rows in time order
 * @param intervals between them, of `contactIntervals`
 * @param spans what was recorded of each side
 * @param first_movement_s of the start; null where it was not seen
 */
export function missingContacts(
  rows: readonly Contact[],
  intervals: readonly ContactInterval[],
  spans: readonly RecordedSpan[],
  first_movement_s: number | null,
): MissingContacts[] {
  const found: MissingContacts[] = [];
  const add = (after_step: number, contacts: number, from_s: number, to_s: number): void => {
    const samples_lost = spans.some((span) => span.lost_s(from_s, to_s) > HIDING_S);
    if (contacts > 0) found.push({ after_step, contacts, samples_lost });
  };
  if (first_movement_s !== null && isSecondStep(rows[0], first_movement_s, spans)) {
    add(0, 1, first_movement_s, rows[0].touchdown_s);
  }
  intervals.forEach(({ missing }, i) => {
    add(i + 1, missing, rows[i].touchdown_s, rows[i + 1].touchdown_s);
  });
  const last = rows[rows.length - 1];
  const on_s = runningAfter(rows, spans);
  if (on_s >= LEAST_ON_S && intervals.length > 1) {
    const step_s = median(intervals.slice(-4).map((interval) => interval.step_s));
    const both = new Set(rows.map((row) => row.side)).size > 1;
    add(rows.length, Math.floor(on_s / (both ? step_s : 2 * step_s)), last.touchdown_s, last.touchdown_s + on_s);
  }
  return found;
}

/**
 * The fault of a repetition with contacts missing; none where all were found.
 * @param repetition number of the repetition, from 1
 */
export function contactsMissed(missing: readonly MissingContacts[], repetition: number): Fault[] {
  return missing.length === 0 ? [] : [fault('CONTACTS_MISSED', { repetition, missing }, { repetition })];
}

/**
 * The first touchdown comes 0.36 to 0.68 s after the first movement, the second 0.65 to 1.0 s (sprints of both generators),
 * and between them feet take turns: before the first contact its own foot swings and the other stands, mean rates of turning 0
 * to 1.35 to 1; before the second it is the other that swings, 1.5 to 5 to 1.
 */
const FIRST_STEP = { least_s: 0.6, from_s: 0.65, to_s: 0.35, other_turns: 1.4 };

/** Whether the first contact that was found is the second of the start; told only where both feet were recorded. */
function isSecondStep(first: Contact, first_movement_s: number, spans: readonly RecordedSpan[]): boolean {
  const { least_s, from_s, to_s, other_turns } = FIRST_STEP;
  if (first.touchdown_s - first_movement_s < least_s) return false;
  const own = spans.find(({ side }) => side === first.side);
  const other = spans.find(({ side }) => side !== first.side);
  if (!own || !other) return false;
  const turning = (span: RecordedSpan): number => span.meanMotion(first.touchdown_s - from_s, first.touchdown_s - to_s);
  return turning(other) > other_turns * turning(own);
}

/** Feet that move so much of what they did in the run are running still; walking away they move 0.3 to 0.6 of it. */
const RUNNING_SHARE = 0.75;
/** Looked at in turn, s: a step and more, so that one foot's stance is not taken for standing. */
const WINDOW_S = 0.3;
/** Shorter than this the last step itself goes on. */
const LEAST_ON_S = 0.85;
/** Not looked further. */
const LONGEST_ON_S = 6;

/**
 * For how long after the last contact that was found all feet go on moving as in the run, s.
 * @returns s, in whole windows; at most 6
 */
export function runningAfter(rows: readonly Contact[], spans: readonly RecordedSpan[]): number {
  const last = rows[rows.length - 1];
  const usual = spans.map((span) => span.meanMotion(rows[0].touchdown_s, last.touchdown_s));
  let on_s = 0;
  while (on_s < LONGEST_ON_S) {
    const from_s = last.touchdown_s + WINDOW_S / 2 + on_s;
    const goesOn = spans.every(
      (span, k) =>
        span.to_s > from_s + WINDOW_S && span.meanMotion(from_s, from_s + WINDOW_S) >= RUNNING_SHARE * usual[k],
    );
    if (!goesOn || spans.length === 0) break;
    on_s += WINDOW_S;
  }
  return on_s;
}
