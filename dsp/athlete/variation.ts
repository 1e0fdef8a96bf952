import { winsorised } from '../numeric/robust.ts';
import { mean, variance } from '../numeric/statistics.ts';

/** Where an athlete's variation comes from. */
export interface VariationComponents {
  /** Variance between repetitions of one session. */
  within: number;
  /** Variance of the session's mean around the athlete's mean, beyond what chance within a session explains. */
  between: number;
  /** Degrees of freedom of either part. */
  within_df: number;
  between_df: number;
  repetitions: number;
  sessions: number;
}

/**
 * Splits an athlete's variation into that within sessions and that between them, by the method of moments on winsorised
 * values (one-way random effects, unequal group sizes). Three repetitions of one afternoon agree better than three of
 * three weeks; who ignores that flags every good day. Source: Searle, Casella and McCulloch, Variance Components, ch. 3
 * (from memory); the same equations as a one-way analysis of variance.
 * @param values repetitions
 * @param sessions one key a value
 */
export function variationComponents(
  values: readonly number[],
  sessions: readonly (string | number)[],
): VariationComponents {
  const x = winsorised(values);
  const groups = new Map<string | number, number[]>();
  sessions.forEach((key, i) => {
    groups.set(key, [...(groups.get(key) ?? []), x[i]]);
  });
  const parts = [...groups.values()];
  const [n, k] = [x.length, parts.length];
  const grand = mean(x);
  const within_df = n - k;
  const between_df = k - 1;
  let [ssw, ssb, squares] = [0, 0, 0];
  for (const part of parts) {
    const m = mean(part);
    ssw += part.reduce((sum, v) => sum + (v - m) ** 2, 0);
    ssb += part.length * (m - grand) ** 2;
    squares += part.length ** 2;
  }
  const total = variance(x);
  if (within_df < 1 || between_df < 1) {
    // One session, or one repetition a session: the two cannot be told apart, and all of it is kept.
    const [within, between] = within_df < 1 ? [0, total] : [total, 0];
    return { within, between, within_df, between_df, repetitions: n, sessions: k };
  }
  const within = ssw / within_df;
  const size = (n - squares / n) / between_df;
  const between = Math.max(0, (ssb / between_df - within) / size);
  return { within, between, within_df, between_df, repetitions: n, sessions: k };
}
