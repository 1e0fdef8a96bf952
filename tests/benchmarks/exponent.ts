import { studentQuantile } from '../../dsp/numeric/distributions.ts';

/** How something grows with size: value = constant * size ^ exponent. */
export interface Growth {
  exponent: number;
  /** Half of the interval that holds it in 95 of 100 such measurements. */
  within: number;
}

/**
 * The straight line through the logarithms.
 * @param points size and value, both above 0; repeats are points of their own
 */
export function growthOf(points: readonly (readonly [size: number, value: number])[]): Growth {
  const n = points.length;
  const x = points.map(([size]) => Math.log(size));
  const y = points.map(([, value]) => Math.log(value));
  const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / n;
  const [mx, my] = [mean(x), mean(y)];
  const sxx = x.reduce((sum, value) => sum + (value - mx) ** 2, 0);
  const exponent = x.reduce((sum, value, i) => sum + (value - mx) * (y[i] - my), 0) / sxx;
  const rest = y.reduce((sum, value, i) => sum + (value - my - exponent * (x[i] - mx)) ** 2, 0);
  return { exponent, within: studentQuantile(0.975, n - 2) * Math.sqrt(rest / (n - 2) / sxx) };
}
