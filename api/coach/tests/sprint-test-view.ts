import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { Athlete } from '../../../shared/schemas/athlete.ts';
import type { SprintTest } from '../../../shared/schemas/coach/sprint-test.ts';
import type { AccelerationView, SprintSeries, SprintTestView } from '../../../shared/schemas/coach/sprint-test-view.ts';
import { METRES_PER_YARD } from '../../../shared/units.ts';
import { getAthlete } from '../../store/athletes.ts';
import type { Store } from '../../store/store.ts';
import { accelerationView } from '../judgement/acceleration-view.ts';
import { cautionsFor } from '../words/cautions.ts';
import { shortNumberText } from '../words/quantity-words.ts';
import { readCoachSettings } from '../coach-settings.ts';
import { addDays } from '../../../shared/dates.ts';
import { nextTestDate } from './next-test-date.ts';
import { trainingDays } from '../plans/session-plans.ts';
import { changeBetween, groupSeries, seriesKey } from './sprint-test-change.ts';
import { listSprintTests } from './sprint-tests.ts';
import { isHandTime } from './sprint-time-rules.ts';

/** An athlete's sprint tests by series, what changed beyond the method's error, and when to test next. */
export function sprintTestView(
  store: Store,
  athlete_id: number,
  today: string,
  words: JudgementWords = JUDGEMENT_EN,
): SprintTestView {
  const athlete = getAthlete(store, athlete_id);
  const tests = listSprintTests(store, athlete_id);
  return {
    athlete_id,
    name: athlete.name,
    series: seriesOf(tests, words),
    accelerations: accelerationsOf(tests, athlete, words),
    next_test: nextTest(store, athlete_id, tests, today, words),
    cautions: cautionsFor([], words),
  };
}

/** Acceleration behind the test that counts of each day and series, oldest first: days are compared, not runs of one day. */
function accelerationsOf(tests: readonly SprintTest[], athlete: Athlete, words: JudgementWords): AccelerationView[] {
  // With the finish, one split makes two timed distances: the least that tells how speed was built up.
  const split = tests.filter((test) => test.splits.length >= 1);
  return groupSeries(split)
    .flatMap(bestOfEachDay)
    .sort((a, b) => a.date.localeCompare(b.date))
    .flatMap((test) => {
      const view = accelerationView(test, athlete, words);
      return view ? [{ ...view, series_key: seriesKey(test) }] : [];
    });
}

/** Series of tests and when to test next, without the acceleration behind each test. */
export function sprintTestStanding(
  store: Store,
  athlete_id: number,
  today: string,
  words: JudgementWords = JUDGEMENT_EN,
): Pick<SprintTestView, 'series' | 'next_test'> {
  const tests = listSprintTests(store, athlete_id);
  return { series: seriesOf(tests, words), next_test: nextTest(store, athlete_id, tests, today, words) };
}

/** Tests by series, the one tested last first. */
function seriesOf(tests: readonly SprintTest[], words: JudgementWords): SprintSeries[] {
  return groupSeries(tests)
    .map((series) => toSeries(series, words))
    .sort((a, b) => b.tests.at(-1)!.date.localeCompare(a.tests.at(-1)!.date));
}

function nextTest(
  store: Store,
  athlete_id: number,
  tests: readonly SprintTest[],
  today: string,
  words: JudgementWords,
) {
  const last = tests.at(-1)?.date ?? null;
  const interval = readCoachSettings(store).plan_limits.sprint_test_interval_days;
  if (interval === null) return nextTestDate(last, today, null, [], words);
  const due = last === null ? today : addDays(last, interval);
  const speed_days = trainingDays(store, [athlete_id], due > today ? due : today, null)
    .filter((day) => day.speed_distance_m > 0)
    .map((day) => day.date);
  return nextTestDate(last, today, interval, speed_days, words);
}

function toSeries(tests: SprintTest[], words: JudgementWords): SprintSeries {
  const last = tests.at(-1)!;
  const best = bestOfEachDay(tests);
  const change = (series: readonly SprintTest[], from = series.length - 2) =>
    changeBetween(series, from, series.length - 1, words);
  const since_last = best.length > 1 ? change(best) : null;
  const threshold = since_last?.threshold_s ?? change([last, last]).threshold_s;
  return {
    key: seriesKey(last),
    title: seriesTitle(last, words),
    hand: isHandTime(last.timing_method),
    tests,
    error_s: threshold / Math.SQRT2,
    since_last,
    best_ids: best.map((test) => test.sprint_test_id),
    since_first: best.length > 2 ? change(best, 0) : null,
  };
}

/** `40 yd, touch pad and beam, standing start`. */
export function seriesTitle(test: SprintTest, words: JudgementWords = JUDGEMENT_EN): string {
  const say = words.coach.testing;
  return `${distanceWords(test, words)}, ${say(`method_${test.timing_method}`)}, ${say(`start_${test.start_style}`)}`;
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

function distanceWords(test: Pick<SprintTest, 'distance_m' | 'distance_unit'>, words: JudgementWords): string {
  const shown = test.distance_unit === 'yd' ? test.distance_m / METRES_PER_YARD : test.distance_m;
  return `${shortNumberText(shown, words)} ${test.distance_unit}`;
}
