import { studentQuantile } from '../../dsp/numeric/distributions.ts';
import { fitLine } from '../../dsp/numeric/least-squares.ts';

/** How something grows with size: value = constant * size ^ exponent. */
export interface Growth {
  exponent: number;
  /** Half of the interval that holds it in 95 of 100 such measurements. */
  within: number;
}

/**
 * The straight line through the logarithms.
 * @param points size and value, both above 0, of at least two sizes; repeats are points of their own
 */
export function growthOf(points: readonly (readonly [size: number, value: number])[]): Growth {
  const sizes = points.map(([size]) => Math.log(size));
  const values = points.map(([, value]) => Math.log(value));
  const { slope, slope_se, degrees_of_freedom } = fitLine(sizes, values)!;
  return { exponent: slope, within: studentQuantile(0.975, degrees_of_freedom) * slope_se };
}
