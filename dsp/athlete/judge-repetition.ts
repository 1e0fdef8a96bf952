import { studentQuantile } from '../numeric/distributions.ts';
import { mean } from '../numeric/statistics.ts';
import { type Baseline, SINGLE_FACTOR } from './baseline.ts';

/** What a repetition is called against the athlete's baseline. */
export interface RepetitionVerdict {
  /** This repetition minus the centre. */
  change: number;
  beyond: 'above' | 'below' | null;
  /** The rule that spoke: this repetition alone, or the mean of the last two or three of the session. */
  rule: 'single' | 'run of 2' | 'run of 3' | null;
  /** The mean change that rule looked at. */
  rule_change: number;
  /** What it had to exceed. */
  threshold: number;
}

/**
 * Probability of a false flag that each rule may spend on one repetition. They add up to less than 5 % (they overlap);
 * tests/dsp/athlete/flag-rule.test.ts measures it and the power.
 */
const RULES = [
  { length: 1, name: 'single', alpha: 0.01 },
  { length: 2, name: 'run of 2', alpha: 0.04 },
  { length: 3, name: 'run of 3', alpha: 0.045 },
] as const;

/**
 * Is this repetition different from the athlete's normal, beyond chance?
 *
 * One repetition alone must leave the centre by max(smallest worthwhile change, 1.96 sqrt 2 typical errors). That rule
 * keeps quiet in 99 % of unchanged repetitions, but sees a change of two typical errors in one repetition of five only.
 * So the last two and three repetitions of the session are judged together by their mean, whose error is smaller:
 * between sessions plus within sessions over their number, plus the centre's own error. Each limit uses Student's t, so
 * that a short baseline flags late rather than falsely.
 *
 * @param baseline from earlier sessions
 * @param session this session's values at the same effort and course in order, the one to judge last
 */
export function judgeRepetition(baseline: Baseline, session: readonly number[]): RepetitionVerdict {
  const change = session[session.length - 1] - baseline.centre;
  let nearest: RepetitionVerdict | null = null;
  for (const { length, name, alpha } of RULES) {
    if (session.length < length) break;
    const rule_change = mean(session.slice(-length)) - baseline.centre;
    const limit = flagLimit(baseline, length, alpha);
    const verdict: RepetitionVerdict = {
      change,
      beyond: rule_change > 0 ? 'above' : 'below',
      rule: name,
      rule_change,
      threshold: limit,
    };
    if (Math.abs(rule_change) > limit) return verdict;
    nearest ??= { ...verdict, beyond: null, rule: null };
  }
  return nearest!;
}

/** How far the mean of `length` repetitions of one session may leave the centre by chance. */
function flagLimit(baseline: Baseline, length: number, alpha: number): number {
  const { components: c, typical_error, smallest_worthwhile_change, centre_variance } = baseline;
  const sd = Math.sqrt(c.between + c.within / length + centre_variance);
  const chance = studentQuantile(1 - alpha / 2, degreesOfFreedom(baseline, length)) * sd;
  const floor = length === 1 ? SINGLE_FACTOR * typical_error : 0;
  return Math.max(smallest_worthwhile_change, floor, chance);
}

/** Welch and Satterthwaite's effective degrees of freedom of between + within / length. */
function degreesOfFreedom({ components: c }: Baseline, length: number): number {
  if (!Number.isFinite(c.within_df)) return 1e6;
  const parts = [
    { variance: c.between, df: Math.max(1, c.between_df) },
    { variance: c.within / length, df: Math.max(1, c.within_df) },
  ];
  const total = parts.reduce((sum, p) => sum + p.variance, 0);
  if (!(total > 0)) return 1e6;
  const effective = total ** 2 / parts.reduce((sum, p) => sum + p.variance ** 2 / p.df, 0);
  return Math.min(effective, Math.max(1, c.repetitions - 1));
}
