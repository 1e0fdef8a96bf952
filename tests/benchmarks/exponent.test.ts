import { describe, expect, it } from 'vitest';
import { growthOf } from './exponent.ts';

describe('growthOf', () => {
  it('finds the exponent of a power exactly, with an interval of nothing', () => {
    const points = [1, 3, 10, 30].map((size): [number, number] => [size, 0.2 * size ** 1.3]);
    const { exponent, within } = growthOf(points);
    expect(exponent).toBeCloseTo(1.3, 12);
    expect(within).toBeCloseTo(0, 6);
  });

  // By hand: x = 0, 1, 2, 3 and y = 0, 1.1, 1.9, 3 give a slope of 0.98 and squares of 0.018 in all; t of two degrees of freedom is 4.3027
  // (tables of Student's t, two-sided 5 %).
  it('gives the interval of a straight line through four points', () => {
    const points = [0, 1.1, 1.9, 3].map((y, x): [number, number] => [Math.exp(x), Math.exp(y)]);
    const { exponent, within } = growthOf(points);
    expect(exponent).toBeCloseTo(0.98, 12);
    expect(within).toBeCloseTo(4.3027 * Math.sqrt(0.018 / 2 / 5), 4);
  });
});
