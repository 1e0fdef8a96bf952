import * as simpleStatistics from 'simple-statistics';

/**
 * Summary statistics of a sample. Two-pass with compensated sums, so that large offsets (NIST NumAcc) do not eat
 * digits. All functions take finite numbers only; leave out what was not measured first.
 */

/**
 * Compensated sum (Kahan and Babuska), by simple-statistics; 0 for no values.
 * @param values n finite values
 * @returns in their unit
 */
export function sum(values: ArrayLike<number>): number {
  return simpleStatistics.sum(values as number[]);
}

/**
 * Arithmetic mean; NaN for no values.
 * @param values n finite values
 * @returns in their unit
 */
export function mean(values: ArrayLike<number>): number {
  const n = values.length;
  if (n === 0) return Number.NaN;
  const first = sum(values) / n;
  return first + sum(Float64Array.from(values, (v) => v - first)) / n;
}

/**
 * Sample variance (n - 1); NaN for fewer than two values.
 * @param values n finite values
 * @returns in the square of their unit
 */
export function variance(values: ArrayLike<number>): number {
  const n = values.length;
  if (n < 2) return Number.NaN;
  const centre = mean(values);
  const squares = Float64Array.from(values, (v) => (v - centre) ** 2);
  return sum(squares) / (n - 1);
}

/**
 * Sample standard deviation (n - 1).
 * @param values n finite values
 * @returns in their unit; NaN for fewer than two
 */
export function standardDeviation(values: ArrayLike<number>): number {
  return Math.sqrt(variance(values));
}

/**
 * Root mean square.
 * @param values n finite values
 * @returns in their unit; NaN for none
 */
export function rootMeanSquare(values: ArrayLike<number>): number {
  return Math.sqrt(mean(Float64Array.from(values, (v) => v * v)));
}

/**
 * Pearson's correlation, by simple-statistics.
 * @param x n finite values
 * @param y n finite values, one for each x
 * @returns -1 to 1; NaN where one of them does not vary
 */
export function correlation(x: ArrayLike<number>, y: ArrayLike<number>): number {
  return simpleStatistics.sampleCorrelation(Array.from(x), Array.from(y));
}

/**
 * Quantile by linear interpolation between order statistics (Hyndman and Fan's type 7, the default of R and numpy).
 * @param values n finite values in any order; left as they are
 * @param share 0 to 1
 * @returns in their unit; NaN for none
 */
export function quantile(values: ArrayLike<number>, share: number): number {
  const sorted = Float64Array.from(values).sort();
  if (sorted.length === 0) return Number.NaN;
  const position = (sorted.length - 1) * share;
  const below = Math.floor(position);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below] + (position - below) * (sorted[above] - sorted[below]);
}

/**
 * Middle value; mean of the two middle ones for an even count.
 * @param values n finite values in any order
 * @returns in their unit; NaN for none
 */
export function median(values: ArrayLike<number>): number {
  return quantile(values, 0.5);
}

/** Makes the median absolute deviation estimate a normal distribution's SD: 1 / Phi^-1(3/4). */
export const MAD_TO_SD = 1.482602218505602;
