import type { LastTest } from '../../../shared/schemas/coach/standing.ts';
import type { SprintSeries } from '../../../shared/schemas/coach/sprint-test-view.ts';

/**
 * The latest test of the series tested last, with the best of that series.
 * @param series the one tested last comes first
 */
export function lastTest(series: readonly SprintSeries[]): LastTest | null {
  const [latest] = series;
  const counted = latest?.tests.filter((test) => latest.best_ids.includes(test.sprint_test_id)) ?? [];
  const last = counted.at(-1);
  if (!last) return null;
  const best = counted.reduce((fastest, test) => (test.time_s < fastest.time_s ? test : fastest));
  return {
    title: latest.title,
    date: last.date,
    time_s: last.time_s,
    best_s: best.time_s,
    best_date: best.date,
    since_last: latest.since_last,
  };
}
