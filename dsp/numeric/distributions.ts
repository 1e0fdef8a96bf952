import { incompleteBeta, incompleteGamma, quantileOf, type Tails } from './incomplete-functions.ts';
import { betaTerm, gammaTerm } from './saddle-point.ts';

/**
 * Quantile of Student's t.
 * @param probability 0 to 1, below the quantile
 * @param df above 0, not only whole numbers
 * @returns t; infinite at 0 and 1
 */
export function studentQuantile(probability: number, df: number): number {
  const oneTail = Math.min(probability, 1 - probability);
  // t squared is an F with one degree of freedom above.
  const squared = fisherAt({ lower: 2 * Math.abs(probability - 0.5), upper: 2 * oneTail }, 1, df);
  return Math.sign(probability - 0.5) * Math.sqrt(squared);
}

/**
 * Two-sided probability of a t at least as far from 0.
 * @param t any number
 * @param df above 0
 * @returns 0 to 1
 */
export function studentTwoSided(t: number, df: number): number {
  return fisherUpper(t * t, 1, df);
}

/**
 * Quantile of the F distribution.
 * @param probability 0 to 1, below the quantile
 * @param df1 degrees of freedom above the line, above 0, not only whole numbers
 * @param df2 those below it
 * @returns F, 0 or more; infinite at 1
 */
export function fisherQuantile(probability: number, df1: number, df2: number): number {
  return fisherAt({ lower: probability, upper: 1 - probability }, df1, df2);
}

/**
 * Probability of an F at least as large.
 * @param f 0 or more
 * @param df1 above 0
 * @param df2 above 0
 * @returns 0 to 1
 */
export function fisherUpper(f: number, df1: number, df2: number): number {
  return fisherTails(f, df1, df2).upper;
}

/**
 * Quantile of chi-square.
 * @param probability 0 to 1, below the quantile
 * @param df above 0, not only whole numbers
 * @returns chi-square, 0 or more; infinite at 1
 */
export function chiSquareQuantile(probability: number, df: number): number {
  const tails = (value: number) => incompleteGamma(df / 2, value);
  const slope = (value: number) => gammaTerm(df / 2, value);
  return 2 * quantileOf(tails, slope, { lower: probability, upper: 1 - probability });
}

/** F as a beta: x = df1 F / (df1 F + df2). */
function fisherTails(f: number, df1: number, df2: number): Tails {
  // A continued fraction of what is no number would never end.
  if (!(f >= 0 && df1 > 0 && df2 > 0)) return { lower: Number.NaN, upper: Number.NaN };
  const whole = df1 * f + df2;
  return incompleteBeta(df1 / 2, df2 / 2, (df1 * f) / whole, df2 / whole);
}

function fisherAt(wanted: Tails, df1: number, df2: number): number {
  if (!(wanted.lower >= 0 && wanted.upper >= 0 && df1 > 0 && df2 > 0)) return Number.NaN;
  const slope = (f: number) => betaTerm(df1 / 2, df2 / 2, (df1 * f) / (df1 * f + df2), df2 / (df1 * f + df2));
  return quantileOf((f) => fisherTails(f, df1, df2), slope, wanted);
}
