import { studentQuantile, studentTwoSided } from '../numeric/distributions.ts';
import { fitLine } from '../numeric/least-squares.ts';
import { mean, rootMeanSquare, standardDeviation } from '../numeric/statistics.ts';

/** An estimate with the ends of its confidence interval. */
export interface Interval {
  value: number;
  low: number;
  high: number;
}

/** How two methods of measuring the same thing agree. Differences are method minus reference. */
export interface Agreement {
  n: number;
  bias: Interval;
  sd: number;
  /** Bias -+ multiplier x sd: where 95 % of differences lie. */
  lower_limit: Interval;
  upper_limit: Interval;
  /** Regression of the difference on the mean of both: does the difference grow with the size? */
  proportional: { slope: Interval; intercept: number; p: number } | null;
  root_mean_square_error: number;
  mean_absolute_error: number;
}

export interface AgreementOptions {
  /** SDs from the bias to a limit; default 1.96. Bland and Altman 1986 use 2. */
  multiplier?: number;
  /** Default 0.95. */
  confidence?: number;
}

/**
 * Bias and limits of agreement of independent pairs (one pair a subject), with confidence intervals: the bias has the
 * standard error s / sqrt(n), a limit about sqrt(3 s^2 / n), both with Student's t of n - 1. For several pairs a
 * subject use `repeatedAgreement`: pooling them as if independent makes the intervals too narrow.
 * Source: Bland and Altman 1986, Lancet 327:307-310, doi 10.1016/S0140-6736(86)90837-8.
 * @param method values of the method to judge, at least 2
 * @param reference values of the reference for the same things, in the same order
 */
export function agreement(
  method: readonly number[],
  reference: readonly number[],
  { multiplier = 1.96, confidence = 0.95 }: AgreementOptions = {},
): Agreement {
  const differences = method.map((m, i) => m - reference[i]);
  const n = differences.length;
  const bias = mean(differences);
  const sd = standardDeviation(differences);
  const t = studentQuantile(1 - (1 - confidence) / 2, n - 1);
  const around = (value: number, se: number): Interval => ({ value, low: value - t * se, high: value + t * se });
  const limit_se = Math.sqrt((3 * sd * sd) / n);
  return {
    n,
    bias: around(bias, sd / Math.sqrt(n)),
    sd,
    lower_limit: around(bias - multiplier * sd, limit_se),
    upper_limit: around(bias + multiplier * sd, limit_se),
    proportional: proportionalBias(method, reference, confidence),
    root_mean_square_error: rootMeanSquare(differences),
    mean_absolute_error: mean(differences.map(Math.abs)),
  };
}

/**
 * Slope of the difference on the mean of both methods, with its interval and the probability of a slope this far from
 * 0.
 * Source: Bland and Altman 1999, Stat Methods Med Res 8:135-160 (from memory).
 * @param method n values of the one
 * @param reference n values of the other, of the same n things
 * @returns null with fewer than three pairs or no spread
 */
export function proportionalBias(
  method: readonly number[],
  reference: readonly number[],
  confidence = 0.95,
): Agreement['proportional'] {
  if (method.length < 3) return null;
  const line = fitLine(
    method.map((m, i) => (m + reference[i]) / 2),
    method.map((m, i) => m - reference[i]),
  );
  if (!line) return null;
  const t = studentQuantile(1 - (1 - confidence) / 2, line.degrees_of_freedom);
  const { slope: value, slope_se: se } = line;
  return {
    slope: { value, low: value - t * se, high: value + t * se },
    intercept: line.intercept,
    p: se > 0 ? studentTwoSided(value / se, line.degrees_of_freedom) : value === 0 ? 1 : 0,
  };
}
