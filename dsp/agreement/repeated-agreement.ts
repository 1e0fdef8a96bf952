import { chiSquareQuantile, studentQuantile } from '../numeric/distributions.ts';
import { mean, sum, variance } from '../numeric/statistics.ts';
import { oneWayAnova } from './analysis-of-variance.ts';
import type { Interval } from './limits-of-agreement.ts';

/** Agreement from several pairs a subject. */
export interface RepeatedAgreement {
  subjects: number;
  pairs: number;
  bias: Interval;
  /** SD of a single difference, over subjects. */
  sd: number;
  /** Its parts: between subjects (a subject's own bias) and within. */
  sd_between: number;
  sd_within: number;
  lower_limit: Interval;
  upper_limit: Interval;
}

/**
 * Limits of agreement where each subject gave several pairs and the true value changes from pair to pair (each contact
 * of each runner). The variance of a difference is that between subjects plus that within, from a one-way analysis of
 * variance of the differences with unequal group sizes; the bias is the mean of all differences.
 * Source: Bland and Altman 2007, J Biopharm Stat 17:571-582, doi 10.1080/10543400701329422, section 3 (from memory).
 * Intervals: MOVER, Zou 2013, Stat Methods Med Res 22:630-642 (from memory; checked by simulation).
 * @param differences one list a subject, method minus reference; at least two subjects
 */
export function repeatedAgreement(differences: readonly (readonly number[])[], confidence = 0.95): RepeatedAgreement {
  const groups = differences.filter((g) => g.length > 0);
  const k = groups.length;
  const all = groups.flat();
  const n = all.length;
  const squares = sum(groups.map((g) => g.length ** 2));
  const anova = oneWayAnova(groups);
  const within = n > k ? anova.within.mean_square : 0;
  const size = (n - squares / n) / (k - 1);
  const between = Math.max(0, (anova.between.mean_square - within) / size);
  const sd = Math.sqrt(between + within);
  const bias = mean(all);

  const tail = (1 - confidence) / 2;
  const bias_se = Math.sqrt((between * squares) / (n * n) + within / n);
  const bias_half = studentQuantile(1 - tail, k - 1) * bias_se;
  // Two independent parts whose sum is the total variance: that of the subjects' means, and what averaging took from
  // it.
  const harmonic = k / sum(groups.map((g) => 1 / g.length));
  const fromMeans = variance(groups.map((g) => mean(g)));
  const fromWithin = (1 - 1 / harmonic) * within;
  const reach = (probability: number): number =>
    Math.hypot(
      fromMeans * ((k - 1) / chiSquareQuantile(probability, k - 1) - 1),
      n > k ? fromWithin * ((n - k) / chiSquareQuantile(probability, n - k) - 1) : 0,
    );
  const sd_low = Math.sqrt(Math.max(0, sd * sd - reach(1 - tail)));
  const sd_high = Math.sqrt(sd * sd + reach(tail));
  const inner = Math.hypot(bias_half, 1.96 * (sd - sd_low));
  const outer = Math.hypot(bias_half, 1.96 * (sd_high - sd));
  const [lower, upper] = [bias - 1.96 * sd, bias + 1.96 * sd];
  return {
    subjects: k,
    pairs: n,
    bias: { value: bias, low: bias - bias_half, high: bias + bias_half },
    sd,
    sd_between: Math.sqrt(between),
    sd_within: Math.sqrt(within),
    lower_limit: { value: lower, low: lower - outer, high: lower + inner },
    upper_limit: { value: upper, low: upper - inner, high: upper + outer },
  };
}

/**
 * SD of a difference of single readings from replicates of a constant true value: the SD of the differences of means,
 * corrected for the scatter that averaging removed. Source: Bland and Altman 1986 (see `agreement`), for two readings
 * each; general form as in Bland and Altman 1999, Stat Methods Med Res 8:135-160 (from memory).
 * @param method one row a subject, replicates of equal number
 * @param reference the same subjects
 * @returns mean difference and its SD for single readings, in the unit of the readings
 */
export function sdOfSingleDifferences(
  method: readonly (readonly number[])[],
  reference: readonly (readonly number[])[],
): { bias: number; sd: number } {
  const differences = method.map((row, i) => mean(row) - mean(reference[i]));
  const part = (rows: readonly (readonly number[])[]): number =>
    (1 - 1 / rows[0].length) * oneWayAnova(rows).within.mean_square;
  return { bias: mean(differences), sd: Math.sqrt(variance(differences) + part(method) + part(reference)) };
}
