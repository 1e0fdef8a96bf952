import { studentQuantile, studentTwoSided } from '../numeric/distributions.ts';
import { mean } from '../numeric/statistics.ts';
import type { BaselineValue } from './baseline.ts';
import { degreesOfFreedom } from './judge-repetition.ts';
import type { VariationComponents } from './variation.ts';

/** Some repetitions with what is known of how their athlete varies. */
export interface ComparedLevel {
  values: readonly BaselineValue[];
  components: VariationComponents;
}

/** The difference of two levels with what chance can do to it. */
export interface LevelDifference {
  a: number;
  b: number;
  /** b minus a, with its 95 % interval. */
  difference: number;
  low: number;
  high: number;
  /** Probability, 0.5 to 1, that the levels differ in the direction of the difference. */
  certainty: number;
}

/**
 * The level of some repetitions: the mean of their sessions, each session counting alike.
 * @returns in the unit of the values; NaN without any
 */
export function levelOf(values: readonly BaselineValue[]): number {
  return mean([...bySession(values).values()].map((group) => mean(group)));
}

/**
 * Two levels of one athlete. What both share drops out: two repetitions of one session differ by what varies within it alone.
 * Searle, Casella and McCulloch 1992, Variance Components: variance of a contrast in a one-way model of random effects.
 * @param components of the athlete, at that effort and course
 */
export function compareWithin(
  a: readonly BaselineValue[],
  b: readonly BaselineValue[],
  components: VariationComponents,
): LevelDifference {
  const [days, repetitions] = contrast(bySession(a), bySession(b));
  const sd = Math.sqrt(days * components.between + repetitions * components.within);
  return differenceOf(levelOf(a), levelOf(b), sd, degreesOfFreedom(components, days, repetitions));
}

/**
 * Levels of two athletes, who share nothing; each varies by their own, and the measuring error is not shared either.
 * @param measuring_u standard uncertainty of the difference by measuring alone
 */
export function compareBetween(a: ComparedLevel, b: ComparedLevel, measuring_u: number): LevelDifference {
  const parts = [a, b].map(({ values, components }) => {
    const [days, repetitions] = contrast(bySession(values), new Map());
    const variance = days * components.between + repetitions * components.within;
    return { variance, df: degreesOfFreedom(components, days, repetitions) };
  });
  const sd = Math.sqrt(parts[0].variance + parts[1].variance + measuring_u ** 2);
  // Welch and Satterthwaite; the measuring error counts as known.
  const df = sd ** 4 / parts.reduce((sum, part) => sum + part.variance ** 2 / part.df, 0);
  return differenceOf(levelOf(a.values), levelOf(b.values), sd, df);
}

function differenceOf(a: number, b: number, sd: number, df: number): LevelDifference {
  const difference = b - a;
  const half = studentQuantile(0.975, df) * sd;
  return {
    a,
    b,
    difference,
    low: difference - half,
    high: difference + half,
    certainty: 1 - studentTwoSided(difference / sd, df) / 2,
  };
}

/** How often the variance between days and that within one count in the difference of two means of session means. */
function contrast(a: Sessions, b: Sessions): [days: number, repetitions: number] {
  let [days, repetitions] = [0, 0];
  for (const session of new Set([...a.keys(), ...b.keys()])) {
    const [of_a, of_b] = [a.get(session)?.length ?? 0, b.get(session)?.length ?? 0];
    const weight = (of_b > 0 ? 1 / b.size : 0) - (of_a > 0 ? 1 / a.size : 0);
    days += weight ** 2;
    repetitions += (of_a > 0 ? 1 / (a.size ** 2 * of_a) : 0) + (of_b > 0 ? 1 / (b.size ** 2 * of_b) : 0);
  }
  return [days, repetitions];
}

type Sessions = Map<string | number, number[]>;

function bySession(values: readonly BaselineValue[]): Sessions {
  const groups: Sessions = new Map();
  for (const { session, value } of values) groups.set(session, [...(groups.get(session) ?? []), value]);
  return groups;
}
