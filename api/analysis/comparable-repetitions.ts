import type { RepetitionLine } from '../../shared/schemas/repetition.ts';
import { listRepetitions } from '../store/repetitions.ts';
import type { Store } from '../store/store.ts';

/** Efforts this close are the same effort, per cent of full speed. Common practice: coaches set steps of 5 or more. */
const SAME_EFFORT_PERCENT = 2.5;
/** Courses this close are the same course: gates stand to about 0.1 m. */
const SAME_DISTANCE_M = 0.5;
/** Belt speeds this close are the same speed. */
const SAME_BELT_MPS = 0.1;
/** Latest ones kept: as many as a baseline uses. */
const MOST = 40;

/**
 * Analysed repetitions of the same athlete, effort and course (distance, start style, belt speed) from sessions before this
 * repetition's, oldest first: what its baseline rests on.
 */
export function comparableRepetitions(store: Store, repetition: RepetitionLine): RepetitionLine[] {
  return listRepetitions(store, {
    athlete_id: repetition.athlete_id,
    to: repetition.session_date,
    state: 'analysed',
  })
    .filter(
      (line) =>
        line.session_id !== repetition.session_id &&
        line.analysis_id !== null &&
        line.start_style === repetition.start_style &&
        close(line.effort_percent, repetition.effort_percent, SAME_EFFORT_PERCENT) &&
        close(line.course_distance_m, repetition.course_distance_m, SAME_DISTANCE_M) &&
        close(line.belt_speed_mps, repetition.belt_speed_mps, SAME_BELT_MPS),
    )
    .slice(-MOST);
}

function close(a: number | null, b: number | null, within: number): boolean {
  return a === null || b === null ? a === b : Math.abs(a - b) <= within;
}
