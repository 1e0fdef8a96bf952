import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { SprintTest, TimeChange } from '../../../shared/schemas/coach/sprint-test.ts';
import { METRES_PER_YARD } from '../../../shared/units.ts';
import { numberText } from '../words/quantity-words.ts';
import { isHandTime } from './sprint-time-rules.ts';

type TimedTest = Pick<SprintTest, 'date' | 'distance_m' | 'distance_unit' | 'start_style' | 'timing_method' | 'time_s'>;

/** Own tests of one series before the athlete's own typical error replaces the published one. */
const OWN_ERROR_FROM = 6;
const FORTY_YARDS_M = 40 * METRES_PER_YARD;
const MANN = 'Mann 2015, doi 10.1519/JSC.0000000000000941';

/** Times are comparable only within one series: same distance, same start, same timing method. */
export function seriesKey(test: TimedTest): string {
  return `${test.distance_m.toFixed(2)}|${test.start_style}|${test.timing_method}`;
}

/** Tests by series, each in order of date. Hand and electronic times are never in one series. */
export function groupSeries<T extends TimedTest>(tests: readonly T[]): T[][] {
  const series = new Map<string, T[]>();
  for (const test of [...tests].sort((a, b) => a.date.localeCompare(b.date))) {
    const key = seriesKey(test);
    series.set(key, [...(series.get(key) ?? []), test]);
  }
  return [...series.values()];
}

/**
 * Smallest difference between two times that means something.
 * Over 40 yd the published smallest worthwhile difference, 0.12 s electronic and 0.14 s hand. Elsewhere 1.96 sqrt(2)
 * times a typical error of 1.5 % (20 m, electronic), and never less than those of 40 yd for hand times.
 */
export function publishedThreshold(
  test: TimedTest,
  words: JudgementWords = JUDGEMENT_EN,
): { threshold_s: number; source: string } {
  const hand = isHandTime(test.timing_method);
  if (Math.abs(test.distance_m - FORTY_YARDS_M) < 0.2) return { threshold_s: hand ? 0.14 : 0.12, source: MANN };
  const fromError = 1.96 * Math.SQRT2 * 0.015 * test.time_s;
  return {
    threshold_s: hand ? Math.max(0.14, fromError) : fromError,
    source: words.coach.testing('limit_of_error', { hand: hand ? MANN : null }),
  };
}

/**
 * Typical error: standard deviation of the differences between tests that follow each other, over sqrt 2. A steady
 * training effect drops out with the mean; an unsteady one stays in, on the side of saying 'no real change'.
 * Source: Hopkins 2000, Sports Med 30:1-15 (from memory).
 * @returns seconds; null with fewer than six tests
 */
export function ownTypicalError(times_s: readonly number[]): number | null {
  if (times_s.length < OWN_ERROR_FROM) return null;
  const differences = times_s.slice(1).map((time, i) => time - times_s[i]);
  const mean = differences.reduce((a, b) => a + b, 0) / differences.length;
  const square = differences.reduce((sum, d) => sum + (d - mean) ** 2, 0) / (differences.length - 1);
  return Math.sqrt(square / 2);
}

/**
 * Is this change real?
 * @param series tests of one series in order of date, at least two
 * @param from index of the earlier test; by default the one before the last
 */
export function changeBetween(
  series: readonly TimedTest[],
  from = series.length - 2,
  to = series.length - 1,
  words: JudgementWords = JUDGEMENT_EN,
): TimeChange {
  const earlier = series[from];
  const later = series[to];
  const published = publishedThreshold(later, words);
  const own = ownTypicalError(series.map((test) => test.time_s));
  const ownThreshold = own === null ? 0 : 1.96 * Math.SQRT2 * own;
  const threshold_s = Math.max(published.threshold_s, ownThreshold);
  const change_s = later.time_s - earlier.time_s;
  const real = Math.abs(change_s) >= threshold_s - 1e-9;
  const verdict = !real ? 'no real change' : change_s < 0 ? 'faster' : 'slower';
  return {
    from_date: earlier.date,
    to_date: later.date,
    change_s,
    threshold_s,
    threshold_source: ownThreshold > published.threshold_s ? words.coach.testing('limit_of_own') : published.source,
    verdict,
    sentence: changeSentence({ earlier, later, change_s, threshold_s, real }, words),
  };
}

interface Compared {
  earlier: TimedTest;
  later: TimedTest;
  change_s: number;
  threshold_s: number;
  real: boolean;
}

function changeSentence({ earlier, later, change_s, threshold_s, real }: Compared, words: JudgementWords): string {
  const say = words.coach.testing;
  const date = words.date(earlier.date, later.date);
  if (Math.abs(change_s) < 0.005) return say('same_time', { date });
  return say('time_changed', {
    size: numberText(Math.abs(change_s), 2, words),
    faster: change_s < 0,
    date,
    real,
    hand: isHandTime(later.timing_method),
    needed: numberText(threshold_s, 2, words),
  });
}
