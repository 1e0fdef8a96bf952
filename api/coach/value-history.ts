import type { Store } from '../store/store.ts';
import type { RepetitionValueRow } from './coach-tables.ts';

/**
 * What makes two repetitions of one athlete comparable: effort and course. An unknown effort, distance, start or belt
 * speed fits only an unknown one; an unknown surface or footwear fits every one.
 */
export interface Condition {
  distance_m: number | null;
  effort_percent: number | null;
  start_style: string | null;
  belt_speed_mps: number | null;
  surface: string | null;
  footwear: string | null;
}

export type HistoryValue = Omit<RepetitionValueRow, 'quantity'> & {
  repetition_id: number;
  session_id: number;
  session_date: string;
  order_number: number;
};

/** Efforts (per cent of full speed), courses and belt speeds this close count as the same, as for the stride profile. */
const SAME_EFFORT_PERCENT = 2.5;
const SAME_DISTANCE_M = 0.5;
const SAME_BELT_MPS = 0.1;

function isClose(column: string, value: string, within: number): string {
  return `(ABS(${column} - ${value}) <= ${within} OR (${column} IS NULL AND ${value} IS NULL))`;
}

const SELECT = `
  SELECT v.analysis_id, v.stretch, v.value, v.value_u, v.n, v.left_value, v.left_sd, v.left_n, v.right_value, v.right_sd,
         v.right_n, r.repetition_id, r.session_id, s.session_date, r.order_number
  FROM repetitions r
  JOIN sessions s ON s.session_id = r.session_id
  JOIN repetition_values v ON v.analysis_id = r.analysis_id AND v.quantity = @quantity
  WHERE r.athlete_id = @athlete_id AND r.deleted_utc IS NULL AND s.deleted_utc IS NULL
    AND s.session_date >= @from AND s.session_date <= @to
    AND ${isClose('r.course_distance_m', '@distance_m', SAME_DISTANCE_M)}
    AND ${isClose('r.effort_percent', '@effort_percent', SAME_EFFORT_PERCENT)}
    AND ${isClose('r.belt_speed_mps', '@belt_speed_mps', SAME_BELT_MPS)}
    AND r.start_style IS @start_style
    AND (@surface IS NULL OR COALESCE(r.surface, s.surface) IS NULL OR COALESCE(r.surface, s.surface) = @surface)
    AND (@footwear IS NULL OR r.footwear IS NULL OR r.footwear = @footwear)
  ORDER BY s.session_date DESC, r.session_id DESC, r.order_number DESC, r.repetition_id DESC
  LIMIT @most`;

/**
 * One quantity of an athlete's analysed repetitions of that effort and course, oldest first.
 * @param from first local date, inclusive
 * @param to last local date, inclusive
 * @param most only so many of the latest
 */
export function valueHistory(
  store: Store,
  athlete_id: number,
  quantity: string,
  condition: Condition,
  from = '0000-00-00',
  to = '9999-99-99',
  most = -1,
): HistoryValue[] {
  const rows = store.prepare(SELECT).all({ athlete_id, quantity, from, to, most, ...condition });
  return (rows as HistoryValue[]).reverse();
}

/** The condition a repetition was run under. */
export function conditionOf(repetition: {
  course_distance_m: number | null;
  effort_percent: number | null;
  start_style: string | null;
  belt_speed_mps: number | null;
  surface: string | null;
  footwear: string | null;
}): Condition {
  return {
    distance_m: repetition.course_distance_m,
    effort_percent: repetition.effort_percent,
    start_style: repetition.start_style,
    belt_speed_mps: repetition.belt_speed_mps,
    surface: repetition.surface,
    footwear: repetition.footwear,
  };
}
