import type { Athlete } from '../../../shared/schemas/athlete.ts';
import type { SprintTest } from '../../../shared/schemas/coach/sprint-test.ts';
import type { AccelerationView, SprintSeries, SprintTestView } from '../../../shared/schemas/coach/sprint-test-view.ts';
import { METRES_PER_YARD } from '../../../shared/units.ts';
import { getAthlete } from '../../store/athletes.ts';
import type { Store } from '../../store/store.ts';
import { accelerationView } from '../judgement/acceleration-view.ts';
import { CAUTIONS } from '../words/cautions.ts';
import { readCoachSettings } from '../coach-settings.ts';
import { addDays } from '../../../shared/dates.ts';
import { nextTestDate } from './next-test-date.ts';
import { trainingDays } from '../plans/session-plans.ts';
import { changeBetween, groupSeries, seriesKey } from './sprint-test-change.ts';
import { listSprintTests } from './sprint-tests.ts';
import { isHandTime } from './sprint-time-rules.ts';

/** Words for how a time was taken. */
export const METHOD_WORDS: Record<SprintTest['timing_method'], string> = {
  hand: 'hand',
  touch_pad_beam: 'touch pad and beam',
  beam: 'beams',
  gun_photo_finish: 'gun and photo finish',
  motion_start: 'motion start',
  other: 'another method',
};

/** An athlete's sprint tests by series, what changed beyond the method's error, and when to test next. */
export function sprintTestView(store: Store, athlete_id: number, today: string): SprintTestView {
  const athlete = getAthlete(store, athlete_id);
  const tests = listSprintTests(store, athlete_id);
  return {
    athlete_id,
    name: athlete.name,
    series: seriesOf(tests),
    accelerations: accelerationsOf(tests, athlete),
    next_test: nextTest(store, athlete_id, tests, today),
    cautions: [...CAUTIONS],
  };
}

/** Acceleration behind the test that counts of each day and series, oldest first: days are compared, not runs of one day. */
function accelerationsOf(tests: readonly SprintTest[], athlete: Athlete): AccelerationView[] {
  // With the finish, one split makes two timed distances: the least that tells how speed was built up.
  const split = tests.filter((test) => test.splits.length >= 1);
  return groupSeries(split)
    .flatMap(bestOfEachDay)
    .sort((a, b) => a.date.localeCompare(b.date))
    .flatMap((test) => {
      const view = accelerationView(test, athlete);
      return view ? [{ ...view, series_key: seriesKey(test) }] : [];
    });
}

/** Series of tests and when to test next, without the acceleration behind each test. */
export function sprintTestStanding(
  store: Store,
  athlete_id: number,
  today: string,
): Pick<SprintTestView, 'series' | 'next_test'> {
  const tests = listSprintTests(store, athlete_id);
  return { series: seriesOf(tests), next_test: nextTest(store, athlete_id, tests, today) };
}

/** Tests by series, the one tested last first. */
function seriesOf(tests: readonly SprintTest[]): SprintSeries[] {
  return groupSeries(tests)
    .map(toSeries)
    .sort((a, b) => b.tests.at(-1)!.date.localeCompare(a.tests.at(-1)!.date));
}

function nextTest(store: Store, athlete_id: number, tests: readonly SprintTest[], today: string) {
  const last = tests.at(-1)?.date ?? null;
  const interval = readCoachSettings(store).plan_limits.sprint_test_interval_days;
  if (interval === null) return nextTestDate(last, today, null);
  const due = last === null ? today : addDays(last, interval);
  const speed_days = trainingDays(store, [athlete_id], due > today ? due : today, null)
    .filter((day) => day.speed_distance_m > 0)
    .map((day) => day.date);
  return nextTestDate(last, today, interval, speed_days);
}

function toSeries(tests: SprintTest[]): SprintSeries {
  const last = tests.at(-1)!;
  const best = bestOfEachDay(tests);
  const since_last = best.length > 1 ? changeBetween(best) : null;
  const threshold = since_last?.threshold_s ?? changeBetween([last, last]).threshold_s;
  return {
    key: seriesKey(last),
    title: seriesTitle(last),
    hand: isHandTime(last.timing_method),
    tests,
    error_s: threshold / Math.SQRT2,
    since_last,
    best_ids: best.map((test) => test.sprint_test_id),
    since_first: best.length > 2 ? changeBetween(best, 0, best.length - 1) : null,
  };
}

/** `40 yd, touch pad and beam, standing start`. */
export function seriesTitle(test: SprintTest): string {
  return `${distanceWords(test)}, ${METHOD_WORDS[test.timing_method]}, ${test.start_style.replaceAll('_', '-')} start`;
}

/** Several runs of one day count by the fastest. */
export function bestOfEachDay(tests: readonly SprintTest[]): SprintTest[] {
  const best = new Map<string, SprintTest>();
  for (const test of tests) {
    const known = best.get(test.date);
    if (!known || test.time_s < known.time_s) best.set(test.date, test);
  }
  return [...best.values()];
}

export function distanceWords(test: Pick<SprintTest, 'distance_m' | 'distance_unit'>): string {
  const shown = test.distance_unit === 'yd' ? test.distance_m / METRES_PER_YARD : test.distance_m;
  return `${Number(shown.toFixed(2))} ${test.distance_unit}`;
}
