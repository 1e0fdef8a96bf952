import type { Store } from '../../store/store.ts';
import type { RepetitionValueRow } from '../../store/coach-tables.ts';

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

/** One quantity of one earlier repetition. */
export interface PlainValue {
  value: number;
  /** Contacts that the value is the mean of. */
  contacts: number;
  /** Left minus right between neighbouring steps. */
  side_difference: number | null;
  analysis_id: number;
  repetition_id: number;
  session_id: number;
  session_date: string;
  order_number: number;
}

/** The same with everything that is known of it: uncertainty, left and right. */
export type HistoryValue = PlainValue & Omit<RepetitionValueRow, 'quantity'>;

const PLAIN =
  'v.quantity, v.value, v.n AS contacts, v.side_difference, v.analysis_id, h.repetition_id, h.session_id, h.session_date, h.order_number';
const FULL = `${PLAIN}, v.stretch, v.value_u, v.n, v.left_value, v.left_sd, v.left_n, v.right_value, v.right_sd, v.right_n, v.side_difference_u`;

/** Efforts (per cent of full speed), courses and belt speeds this close count as the same, as for the stride profile. */
const SAME = { effort_percent: 2.5, course_distance_m: 0.5, belt_speed_mps: 0.1 } as const;

/** SQL for 'as close as the same', in a form that the index of repetitions by athlete, course and effort can serve. */
function isSame(column: keyof typeof SAME, value: number | null): string {
  if (value === null) return `r.${column} IS NULL`;
  return `r.${column} BETWEEN @${column} - ${SAME[column]} AND @${column} + ${SAME[column]}`;
}

function historySql(columns: string, condition: Condition, { most }: HistoryLimits): string {
  const latest =
    'ORDER BY s.session_date DESC, r.session_id DESC, r.order_number DESC, r.repetition_id DESC LIMIT @most';
  return `
  SELECT ${columns}
  FROM (
    SELECT r.repetition_id, r.session_id, r.order_number, r.analysis_id, s.session_date
    FROM repetitions r JOIN sessions s ON s.session_id = r.session_id
    WHERE r.athlete_id = @athlete_id
      AND ${isSame('course_distance_m', condition.distance_m)}
      AND ${isSame('effort_percent', condition.effort_percent)}
      AND ${isSame('belt_speed_mps', condition.belt_speed_mps)}
      AND r.start_style IS @start_style AND r.analysis_id IS NOT NULL AND r.deleted_utc IS NULL
      AND s.deleted_utc IS NULL AND s.session_date BETWEEN @from AND @to
      AND (@surface IS NULL OR COALESCE(r.surface, s.surface) IS NULL OR COALESCE(r.surface, s.surface) = @surface)
      AND (@footwear IS NULL OR r.footwear IS NULL OR r.footwear = @footwear)
    ${most === undefined ? '' : latest}
  ) h
  JOIN repetition_values v ON v.analysis_id = h.analysis_id AND v.quantity IN (SELECT value FROM json_each(@quantities))
  ORDER BY h.session_date, h.session_id, h.order_number, h.repetition_id`;
}

export interface HistoryLimits {
  /** First local date, inclusive. */
  from?: string;
  /** Last local date, inclusive. */
  to?: string;
  /** Only so many of the latest repetitions. */
  most?: number;
}

/** Quantities of an athlete's analysed repetitions of that effort and course, each oldest first. */
export function valueHistories(
  store: Store,
  athlete_id: number,
  quantities: readonly string[],
  condition: Condition,
  limits: HistoryLimits = {},
): Map<string, HistoryValue[]> {
  const statement = store.prepare(historySql(FULL, condition, limits));
  const rows = statement.all(historyValues(athlete_id, quantities, condition, limits));
  const histories = new Map<string, HistoryValue[]>();
  for (const row of rows as (HistoryValue & { quantity: string })[]) {
    const history = histories.get(row.quantity);
    if (history) history.push(row);
    else histories.set(row.quantity, [row]);
  }
  return histories;
}

/** As `valueHistories` with the plain values only: what a judgement needs, at half the cost. */
export function plainHistories(
  store: Store,
  athlete_id: number,
  quantities: readonly string[],
  condition: Condition,
  limits: HistoryLimits = {},
): Map<string, PlainValue[]> {
  const statement = store.prepare(historySql(PLAIN, condition, limits)).raw();
  const rows = statement.all(historyValues(athlete_id, quantities, condition, limits)) as PlainRow[];
  const histories = new Map<string, PlainValue[]>();
  // Rows as arrays: making an object of each inside the database library costs more than all the rest.
  for (const row of rows) {
    const entry: PlainValue = {
      value: row[1],
      contacts: row[2],
      side_difference: row[3],
      analysis_id: row[4],
      repetition_id: row[5],
      session_id: row[6],
      session_date: row[7],
      order_number: row[8],
    };
    const history = histories.get(row[0]);
    if (history) history.push(entry);
    else histories.set(row[0], [entry]);
  }
  return histories;
}

/** The columns of `PLAIN`. */
type PlainRow = [string, number, number, number | null, number, number, number, string, number];

/** As `valueHistories`, of one quantity. */
export function valueHistory(
  store: Store,
  athlete_id: number,
  quantity: string,
  condition: Condition,
  limits: HistoryLimits = {},
): HistoryValue[] {
  return valueHistories(store, athlete_id, [quantity], condition, limits).get(quantity) ?? [];
}

/** What the statement of `historySql` has names for; others may not be bound to it. */
function historyValues(
  athlete_id: number,
  quantities: readonly string[],
  { distance_m, effort_percent, belt_speed_mps, start_style, surface, footwear }: Condition,
  { from = '0000-00-00', to = '9999-99-99', most }: HistoryLimits,
) {
  return {
    athlete_id,
    quantities: JSON.stringify(quantities),
    from,
    to,
    start_style,
    surface,
    footwear,
    ...(most === undefined ? {} : { most }),
    ...(distance_m === null ? {} : { course_distance_m: distance_m }),
    ...(effort_percent === null ? {} : { effort_percent }),
    ...(belt_speed_mps === null ? {} : { belt_speed_mps }),
  };
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
