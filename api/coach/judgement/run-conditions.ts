import type { RunCondition } from '../../../shared/schemas/coach/course-view.ts';
import type { Store } from '../../store/store.ts';
import type { Condition } from './value-history.ts';

/** Efforts and courses that an athlete has run, the most used first. */
export function runConditions(store: Store, athlete_id: number): RunCondition[] {
  const rows = store
    .prepare(
      `SELECT ROUND(r.course_distance_m, 1) AS distance_m, ROUND(r.effort_percent / 5) * 5 AS effort_percent, r.start_style,
              ROUND(r.belt_speed_mps, 1) AS belt_speed_mps, COUNT(*) AS repetitions, MAX(s.session_date) AS last_date
       FROM repetitions r JOIN sessions s ON s.session_id = r.session_id
       WHERE r.athlete_id = ? AND r.analysis_id IS NOT NULL AND r.deleted_utc IS NULL AND s.deleted_utc IS NULL
       GROUP BY 1, 2, 3, 4 ORDER BY repetitions DESC, last_date DESC`,
    )
    .all(athlete_id) as Omit<RunCondition, 'key'>[];
  return rows.map((row) => ({ ...row, key: conditionKey(row) }));
}

/** The key of the condition that a repetition was run under, rounded as in `runConditions`. */
export function conditionKeyOf(line: {
  course_distance_m: number | null;
  effort_percent: number | null;
  start_style: string | null;
  belt_speed_mps: number | null;
}): string {
  const tenths = (value: number | null) => (value === null ? null : Math.round(value * 10) / 10);
  return conditionKey({
    distance_m: tenths(line.course_distance_m),
    effort_percent: line.effort_percent === null ? null : Math.round(line.effort_percent / 5) * 5,
    start_style: line.start_style,
    belt_speed_mps: tenths(line.belt_speed_mps),
  });
}

function conditionKey(
  row: Pick<RunCondition, 'distance_m' | 'effort_percent' | 'start_style' | 'belt_speed_mps'>,
): string {
  return [row.distance_m, row.effort_percent, row.start_style, row.belt_speed_mps].map((part) => part ?? '').join('_');
}

/**
 * The condition of that key; without a key the one used most at full effort, else the one used most.
 * @returns null when nothing was analysed yet, or the key is not among them
 */
export function chooseCondition(conditions: readonly RunCondition[], key?: string): RunCondition | null {
  if (key !== undefined) return conditions.find((condition) => condition.key === key) ?? null;
  return conditions.find((condition) => (condition.effort_percent ?? 0) >= 95) ?? conditions[0] ?? null;
}

/** As `valueHistory` wants it; surface and footwear are left open over weeks. */
export function asCondition(run: RunCondition): Condition {
  return {
    distance_m: run.distance_m,
    effort_percent: run.effort_percent,
    start_style: run.start_style,
    belt_speed_mps: run.belt_speed_mps,
    surface: null,
    footwear: null,
  };
}
