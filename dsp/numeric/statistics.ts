/**
 * Summary statistics of a sample. Two-pass with compensated sums, so that large offsets (NIST NumAcc) do not eat
 * digits. All functions take finite numbers only; leave out what was not measured with `finite` first.
 */

/** The finite values of a column that may hold null or NaN. */
export function finite(values: ArrayLike<number | null | undefined>): number[] {
  const out: number[] = [];
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (typeof value === 'number' && Number.isFinite(value)) out.push(value);
  }
  return out;
}

/** Compensated sum. Source: Neumaier 1974, Z Angew Math Mech 54:39-51. */
export function sum(values: ArrayLike<number>): number {
  let total = 0;
  let lost = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    const next = total + value;
    lost += Math.abs(total) >= Math.abs(value) ? total - next + value : value - next + total;
    total = next;
  }
  return total + lost;
}

/** Arithmetic mean; NaN for no values. */
export function mean(values: ArrayLike<number>): number {
  const n = values.length;
  if (n === 0) return Number.NaN;
  const first = sum(values) / n;
  return first + sum(Float64Array.from(values, (v) => v - first)) / n;
}

/** Sample variance (n - 1); NaN for fewer than two values. */
export function variance(values: ArrayLike<number>): number {
  const n = values.length;
  if (n < 2) return Number.NaN;
  const centre = mean(values);
  const squares = Float64Array.from(values, (v) => (v - centre) ** 2);
  return sum(squares) / (n - 1);
}

/** Sample standard deviation (n - 1). */
export function standardDeviation(values: ArrayLike<number>): number {
  return Math.sqrt(variance(values));
}

/** Root mean square. */
export function rootMeanSquare(values: ArrayLike<number>): number {
  return Math.sqrt(mean(Float64Array.from(values, (v) => v * v)));
}

/** Lag-1 autocorrelation: sum (y[i] - m)(y[i-1] - m) / sum (y[i] - m)^2. */
export function lag1Autocorrelation(values: ArrayLike<number>): number {
  const centre = mean(values);
  const d = Float64Array.from(values, (v) => v - centre);
  return sum(d.subarray(1).map((v, i) => v * d[i])) / sum(d.map((v) => v * v));
}

/** Pearson's correlation. */
export function correlation(x: ArrayLike<number>, y: ArrayLike<number>): number {
  const [mx, my] = [mean(x), mean(y)];
  const dx = Float64Array.from(x, (v) => v - mx);
  const dy = Float64Array.from(y, (v) => v - my);
  const square = (d: Float64Array): number => sum(d.map((v) => v * v));
  return sum(dx.map((v, i) => v * dy[i])) / Math.sqrt(square(dx) * square(dy));
}

/**
 * Quantile by linear interpolation between order statistics (Hyndman and Fan's type 7, the default of R and numpy).
 * @param share 0 to 1
 */
export function quantile(values: ArrayLike<number>, share: number): number {
  const sorted = Float64Array.from(values).sort();
  if (sorted.length === 0) return Number.NaN;
  const position = (sorted.length - 1) * share;
  const below = Math.floor(position);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below] + (position - below) * (sorted[above] - sorted[below]);
}

/** Middle value; mean of the two middle ones for an even count. */
export function median(values: ArrayLike<number>): number {
  return quantile(values, 0.5);
}

/** Makes the median absolute deviation estimate a normal distribution's SD: 1 / Phi^-1(3/4). */
export const MAD_TO_SD = 1.482602218505602;

/** Robust standard deviation: median absolute deviation from the median, scaled to the normal distribution. */
export function robustStandardDeviation(values: ArrayLike<number>): number {
  const centre = median(values);
  return MAD_TO_SD * median(Float64Array.from(values, (v) => Math.abs(v - centre)));
}
