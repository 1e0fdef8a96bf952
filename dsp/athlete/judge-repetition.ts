import { studentQuantile, studentTwoSided } from '../numeric/distributions.ts';
import { mean } from '../numeric/statistics.ts';
import type { Baseline } from './baseline.ts';
import type { VariationComponents } from './variation.ts';

/** What the repetitions of one session say against the athlete's baseline, after the last of them. */
export interface RepetitionVerdict {
  /** This repetition minus the centre. */
  change: number;
  beyond: 'above' | 'below' | null;
  /** What spoke: this repetition alone, or all like repetitions of today together. */
  rule: 'repetition' | 'today' | null;
  /** Today's like repetitions together minus the centre, with its 95 % interval. */
  today_change: number;
  today_low: number;
  today_high: number;
  /** Probability, 0.5 to 1, that today's level lies on the side of the centre where its mean lies. */
  certainty: number;
}

/**
 * Probability of a false word that each rule may spend at one look. They are chosen so that over all looks of an
 * evening, of up to six repetitions, at most 5 % of unchanged athletes are told a change, also where 40 % of their variance
 * lies between days (`npm run verdict:figures`; tests/dsp/athlete/verdict-rule.test.ts).
 */
const ALPHA = { repetition: 0.004, today: 0.015 } as const;

/**
 * Is today different from the athlete's normal, beyond chance?
 *
 * The mean of all like repetitions of today is judged after each, its error being days, repetitions over their number and
 * the centre's own. One repetition alone speaks only when it is far out. Chance is judged by Student's t, so that a short
 * baseline speaks late rather than falsely.
 *
 * @param baseline from earlier sessions
 * @param session this session's values at the same effort and course in order, the one to judge last
 */
export function judgeRepetition(baseline: Baseline, session: readonly number[]): RepetitionVerdict {
  const change = session[session.length - 1] - baseline.centre;
  const today_change = mean(session) - baseline.centre;
  const chance = chanceOf(baseline, session.length);
  const half = studentQuantile(0.975, chance.df) * chance.sd;
  const shared = {
    change,
    today_change,
    today_low: today_change - half,
    today_high: today_change + half,
    certainty: 1 - studentTwoSided(today_change / chance.sd, chance.df) / 2,
  };
  const worthwhile = baseline.smallest_worthwhile_change;
  const speaks = (size: number, { sd, df }: Chance, alpha: number) =>
    Math.abs(size) > worthwhile && studentTwoSided(size / sd, df) < alpha;
  if (session.length > 1 && speaks(today_change, chance, ALPHA.today)) {
    return { ...shared, beyond: today_change > 0 ? 'above' : 'below', rule: 'today' };
  }
  if (speaks(change, chanceOf(baseline, 1), ALPHA.repetition)) {
    return { ...shared, beyond: change > 0 ? 'above' : 'below', rule: 'repetition' };
  }
  return { ...shared, beyond: null, rule: null };
}

interface Chance {
  sd: number;
  df: number;
}

/** How far the mean of that many repetitions of one session leaves the centre by chance: SD and degrees of freedom. */
function chanceOf({ components, centre_variance }: Baseline, repetitions: number): Chance {
  const variance = components.between + components.within / repetitions + centre_variance;
  return { sd: Math.sqrt(variance), df: degreesOfFreedom(components, 1, 1 / repetitions) };
}

/**
 * Welch and Satterthwaite's effective degrees of freedom of a x between + b x within.
 * Source: Satterthwaite 1946, Biometrics Bulletin 2:110-114 (from memory).
 * @param components variances between days and within one, with their degrees of freedom
 * @param a weight of the part between days
 * @param b weight of the part within a day
 * @returns above 0, not only whole numbers
 */
export function degreesOfFreedom(components: VariationComponents, a: number, b: number): number {
  const parts = [
    { variance: a * components.between, df: Math.max(1, components.between_df) },
    { variance: b * components.within, df: Math.max(1, components.within_df) },
  ];
  const total = parts.reduce((sum, part) => sum + part.variance, 0);
  if (!(total > 0)) return 1e6;
  return total ** 2 / parts.reduce((sum, part) => sum + part.variance ** 2 / part.df, 0);
}
