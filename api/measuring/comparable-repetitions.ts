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
  const latest = store
    .prepare(
      `SELECT repetition_id FROM repetitions JOIN sessions USING (session_id)
       WHERE repetitions.athlete_id = @athlete_id AND repetitions.analysis_id IS NOT NULL
         AND repetitions.deleted_utc IS NULL AND sessions.deleted_utc IS NULL
         AND session_id <> @session_id AND session_date <= @session_date AND start_style IS @start_style
         AND ${close('effort_percent', SAME_EFFORT_PERCENT)}
         AND ${close('course_distance_m', SAME_DISTANCE_M)}
         AND ${close('belt_speed_mps', SAME_BELT_MPS)}
       ORDER BY session_date DESC, session_id DESC, order_number DESC LIMIT ${MOST}`,
    )
    .all({
      athlete_id: repetition.athlete_id,
      session_id: repetition.session_id,
      session_date: repetition.session_date,
      start_style: repetition.start_style,
      effort_percent: repetition.effort_percent,
      course_distance_m: repetition.course_distance_m,
      belt_speed_mps: repetition.belt_speed_mps,
    }) as { repetition_id: number }[];
  return listRepetitions(store, { repetition_ids: latest.map(({ repetition_id }) => repetition_id) });
}

/** SQL for 'equal within so much'; unknown is like unknown only. */
function close(column: string, within: number): string {
  return `(${column} BETWEEN @${column} - ${within} AND @${column} + ${within} OR (${column} IS NULL AND @${column} IS NULL))`;
}
