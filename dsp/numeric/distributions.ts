import fCdf from '@stdlib/stats-base-dists-f-cdf';
import fQuantile from '@stdlib/stats-base-dists-f-quantile';
import tCdf from '@stdlib/stats-base-dists-t-cdf';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';

/** Quantile of Student's t. @param probability 0 to 1, below the quantile @param df above 0, not only whole numbers */
export function studentQuantile(probability: number, df: number): number {
  return df > 1e6 ? tQuantile(probability, 1e6) : tQuantile(probability, df);
}

/** Two-sided probability of a t at least as far from 0. */
export function studentTwoSided(t: number, df: number): number {
  return 2 * tCdf(-Math.abs(t), df);
}

/** Quantile of the F distribution; degrees of freedom need not be whole numbers. */
export function fisherQuantile(probability: number, df1: number, df2: number): number {
  return fQuantile(probability, df1, df2);
}

/** Probability of an F at least as large. */
export function fisherUpper(f: number, df1: number, df2: number): number {
  return 1 - fCdf(f, df1, df2);
}

/** Quantile of chi-square, as the limit of df times F with a second df that is as good as infinite. */
export function chiSquareQuantile(probability: number, df: number): number {
  return df * fQuantile(probability, df, 1e9);
}
