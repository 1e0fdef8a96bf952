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
 * Limits of agreement where each subject gave several pairs and the true value changes from pair to pair (each contact of
 * each runner). The differences' variance is that between subjects plus that within, from a one-way analysis of variance.
 * Source: Bland and Altman 2007, J Biopharm Stat 17:571-582, doi 10.1080/10543400701329422, section 3 (from memory).
 * Intervals: MOVER, Zou 2013, Stat Methods Med Res 22:630-642 (from memory; checked by simulation).
 * The bias is the mean of the subjects' means, so that nobody counts more for having run more.
 * @param differences one list a subject, method minus reference; at least two subjects, at least one with two pairs
 */
export function repeatedAgreement(differences: readonly (readonly number[])[], confidence = 0.95): RepeatedAgreement {
  const groups = differences.filter((g) => g.length > 0);
  const k = groups.length;
  const n = sum(groups.map((g) => g.length));
  const means = groups.map((g) => mean(g));
  const within = n > k ? oneWayAnova(groups).within.mean_square : 0;
  const ofMeans = variance(means);
  // Part of the spread of the subjects' means is only their own scatter over few pairs.
  const harmonic = k / sum(groups.map((g) => 1 / g.length));
  const share = 1 - 1 / harmonic;
  const between = Math.max(0, ofMeans - within / harmonic);
  const total = between + within;
  const bias = mean(means);
  const sd = Math.sqrt(total);

  const tail = (1 - confidence) / 2;
  const bias_half = studentQuantile(1 - tail, k - 1) * Math.sqrt(ofMeans / k);
  const [fromMeans, fromWithin] = [ofMeans, share * within];
  const reach = (probability: number): number =>
    Math.hypot(
      fromMeans * ((k - 1) / chiSquareQuantile(probability, k - 1) - 1),
      n > k ? fromWithin * ((n - k) / chiSquareQuantile(probability, n - k) - 1) : 0,
    );
  const sd_low = Math.sqrt(Math.max(0, total - reach(1 - tail)));
  const sd_high = Math.sqrt(total + reach(tail));
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
 * corrected for the scatter that averaging removed. Source: Bland and Altman 1986 (see `agreement`), for two readings each;
 * general form as in Bland and Altman 1999, Stat Methods Med Res 8:135-160 (from memory).
 * @param method one row a subject, replicates of equal number
 * @param reference the same subjects
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
