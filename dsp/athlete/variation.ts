import { winsorised } from '../numeric/robust.ts';
import { mean, variance } from '../numeric/statistics.ts';

/** Where an athlete's variation comes from. */
export interface VariationComponents {
  /** Variance between repetitions of one session. */
  within: number;
  /**
   * Variance of the session's mean around the athlete's level, beyond what chance within a session explains. As an estimate
   * of few sessions it may come out below zero.
   */
  between: number;
  /** Degrees of freedom of either part. */
  within_df: number;
  between_df: number;
  repetitions: number;
  sessions: number;
}

/** From so many sessions on, what lies on a straight line through the weeks is no variation between days. */
const DETREND_FROM = 4;

/**
 * Splits an athlete's variation into that within sessions and that between them, by the method of moments on winsorised
 * values (one-way random effects, unequal group sizes). Three repetitions of one afternoon agree better than three of
 * three weeks; who ignores that flags every good day. An athlete who gets better all the time does not vary from day to
 * day for that, so a straight line through the sessions is taken out first. Source: Searle, Casella and McCulloch 1992,
 * Variance Components, ch. 3; the same equations as a one-way analysis of variance.
 * @param values repetitions
 * @param sessions one key a value
 * @param days day of each value; without it nothing is taken out
 */
export function variationComponents(
  values: readonly number[],
  sessions: readonly (string | number)[],
  days?: readonly number[],
): VariationComponents {
  const x = winsorised(values);
  const groups = new Map<string | number, { day: number; values: number[] }>();
  sessions.forEach((key, i) => {
    const group = groups.get(key) ?? { day: days?.[i] ?? 0, values: [] };
    group.values.push(x[i]);
    groups.set(key, group);
  });
  const parts = [...groups.values()];
  const [n, k] = [x.length, parts.length];
  const within_df = n - k;
  const means = parts.map((part) => mean(part.values));
  const slopes = days && k >= DETREND_FROM ? 1 : 0;
  const expected = slopes ? lineThrough(parts, means, n) : means.map(() => mean(x));
  const between_df = k - 1 - slopes;
  let [ssw, ssb, squares] = [0, 0, 0];
  parts.forEach((part, i) => {
    ssw += part.values.reduce((sum, v) => sum + (v - means[i]) ** 2, 0);
    ssb += part.values.length * (means[i] - expected[i]) ** 2;
    squares += part.values.length ** 2;
  });
  const counts = { within_df, between_df, repetitions: n, sessions: k };
  if (within_df < 1 || between_df < 1) {
    // One session, or one repetition a session: the two cannot be told apart, and all of it is kept.
    const total = n > 1 ? variance(x) : 0;
    const [within, between] = within_df < 1 ? [0, total] : [total, 0];
    return { within, between, ...counts };
  }
  const within = ssw / within_df;
  const size = (n - squares / n) / (k - 1);
  return { within, between: (ssb / between_df - within) / size, ...counts };
}

/** Straight line through session means, each counting by its repetitions. */
function lineThrough(
  parts: readonly { day: number; values: readonly number[] }[],
  means: readonly number[],
  n: number,
): number[] {
  let [day, level] = [0, 0];
  parts.forEach((part, i) => {
    day += (part.values.length * part.day) / n;
    level += (part.values.length * means[i]) / n;
  });
  let [xx, xy] = [0, 0];
  parts.forEach((part, i) => {
    xx += part.values.length * (part.day - day) ** 2;
    xy += part.values.length * (part.day - day) * (means[i] - level);
  });
  const slope = xx > 0 ? xy / xx : 0;
  return parts.map((part) => level + slope * (part.day - day));
}
