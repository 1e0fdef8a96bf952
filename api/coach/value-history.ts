import type { Store } from '../store/store.ts';
import type { RepetitionValueRow } from './coach-tables.ts';

/** What makes two repetitions of one athlete comparable: effort and course. Null fits everything. */
export interface Condition {
  distance_m: number | null;
  effort_percent: number | null;
  start_style: string | null;
  surface: string | null;
  footwear: string | null;
}

export type HistoryValue = Omit<RepetitionValueRow, 'quantity'> & {
  repetition_id: number;
  session_id: number;
  session_date: string;
  order_number: number;
};

/** Efforts this close, in per cent of full speed, and courses this close, in metres, count as the same. */
export const SAME_EFFORT_PERCENT = 5;
export const SAME_DISTANCE_M = 0.5;

const SELECT = `
  SELECT v.analysis_id, v.stretch, v.value, v.value_u, v.n, v.left_value, v.left_sd, v.left_n, v.right_value, v.right_sd,
         v.right_n, r.repetition_id, r.session_id, s.session_date, r.order_number
  FROM repetitions r
  JOIN sessions s ON s.session_id = r.session_id
  JOIN repetition_values v ON v.analysis_id = r.analysis_id AND v.quantity = @quantity
  WHERE r.athlete_id = @athlete_id AND r.deleted_utc IS NULL AND s.deleted_utc IS NULL
    AND s.session_date >= @from AND s.session_date <= @to
    AND (@distance_m IS NULL OR r.course_distance_m IS NULL OR ABS(r.course_distance_m - @distance_m) <= ${SAME_DISTANCE_M})
    AND (@effort_percent IS NULL OR r.effort_percent IS NULL OR ABS(r.effort_percent - @effort_percent) <= ${SAME_EFFORT_PERCENT})
    AND (@start_style IS NULL OR r.start_style IS NULL OR r.start_style = @start_style)
    AND (@surface IS NULL OR COALESCE(r.surface, s.surface) IS NULL OR COALESCE(r.surface, s.surface) = @surface)
    AND (@footwear IS NULL OR r.footwear IS NULL OR r.footwear = @footwear)
  ORDER BY s.session_date, r.session_id, r.order_number, r.repetition_id`;

/**
 * One quantity of an athlete's analysed repetitions of that effort and course, oldest first.
 * @param from first local date, inclusive
 * @param to last local date, inclusive
 */
export function valueHistory(
  store: Store,
  athlete_id: number,
  quantity: string,
  condition: Condition,
  from = '0000-00-00',
  to = '9999-99-99',
): HistoryValue[] {
  return store.prepare(SELECT).all({ athlete_id, quantity, from, to, ...condition }) as HistoryValue[];
}

/** The condition a repetition was run under. */
export function conditionOf(repetition: {
  course_distance_m: number | null;
  effort_percent: number | null;
  start_style: string | null;
  surface: string | null;
  footwear: string | null;
}): Condition {
  return {
    distance_m: repetition.course_distance_m,
    effort_percent: repetition.effort_percent,
    start_style: repetition.start_style,
    surface: repetition.surface,
    footwear: repetition.footwear,
  };
}
