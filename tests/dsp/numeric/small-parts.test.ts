/** Small parts of numeric/, each against a closed form. */
import { describe, expect, it } from 'vitest';
import { cubicHermite } from '../../../dsp/numeric/cubic-hermite.ts';
import { finiteSegments } from '../../../dsp/numeric/finite-segments.ts';
import { fitLine, leastSquares } from '../../../dsp/numeric/least-squares.ts';
import { anySet, anyUnset, longestRun } from '../../../dsp/numeric/masks.ts';
import { ramp } from '../../../dsp/numeric/ramp.ts';
import {
  correlation,
  mean,
  median,
  quantile,
  rootMeanSquare,
  standardDeviation,
  sum,
  variance,
} from '../../../dsp/numeric/statistics.ts';

describe('cubicHermite', () => {
  it('gives any cubic back from its values and slopes at both ends', () => {
    const cubic = (t: number) => 2 - 3 * t + 0.5 * t ** 2 + 0.25 * t ** 3;
    const slope = (t: number) => -3 + t + 0.75 * t ** 2;
    for (const part of [0, 0.2, 0.5, 0.9, 1]) {
      const between = cubicHermite(part, 4, cubic(1), cubic(5), slope(1), slope(5));
      expect(between).toBeCloseTo(cubic(1 + 4 * part), 12);
    }
  });
});

describe('masks', () => {
  const mask = Uint8Array.from([0, 1, 1, 1, 0, 0, 1, 0]);

  it('anySet and anyUnset look at the stretch alone, cut to the mask', () => {
    expect([anySet(mask, 0, 1), anySet(mask, 0, 2), anySet(mask, 4, 6), anySet(mask, 4, 7)]).toEqual([
      false,
      true,
      false,
      true,
    ]);
    expect([anyUnset(mask, 1, 4), anyUnset(mask, 1, 5), anyUnset(mask, 0, 2)]).toEqual([false, true, true]);
    expect([anySet(mask, -5, 2), anySet(mask, 7, 99), anyUnset(mask, 6, 7), anyUnset(mask, 6, 99)]).toEqual([
      true,
      false,
      false,
      true,
    ]);
    expect([anySet(mask, 3, 3), anyUnset(mask, 4, 4)]).toEqual([false, false]);
    expect(anyUnset(Uint8Array.from([1, 1]), 0, 99)).toBe(false);
    expect(anyUnset(Uint8Array.from([1, 1]), -3, 2)).toBe(false);
  });

  it('longestRun counts a run whole where it reaches into the stretch', () => {
    expect(longestRun(mask, 1, 2, 3)).toBe(3);
    expect(longestRun(mask, 1, 3, 7)).toBe(3);
    expect(longestRun(mask, 1, 4, 8)).toBe(1);
    expect(longestRun(mask, 1, 4, 6)).toBe(0);
    expect(longestRun(mask, 0, 3, 6)).toBe(2);
    expect(longestRun(mask, 0, -4, 99)).toBe(2);
    expect(longestRun(Uint8Array.from([1, 1]), 1, 1, 2)).toBe(2);
    // The last run reaches to the end of the mask.
    expect(longestRun(Uint8Array.from([0, 1, 0, 1, 1]), 1, 0, 5)).toBe(2);
  });
});

describe('ramp', () => {
  it('goes from 0 to 1 between its bounds, in either order', () => {
    expect([1, 2, 3, 4, 6].map((v) => ramp(v, 2, 4))).toEqual([0, 0, 0.5, 1, 1]);
    expect([1, 2, 3.5, 4, 6].map((v) => ramp(v, 4, 2))).toEqual([1, 1, 0.25, 0, 0]);
  });
});

describe('finiteSegments', () => {
  it('are the stretches between what is not finite', () => {
    const { NaN: gap, POSITIVE_INFINITY: inf } = Number;
    expect(finiteSegments([1, 2, gap, 3, inf, gap, 4])).toEqual([
      { start: 0, end: 2 },
      { start: 3, end: 4 },
      { start: 6, end: 7 },
    ]);
    expect(finiteSegments([gap, 1, gap])).toEqual([{ start: 1, end: 2 }]);
    expect([finiteSegments([]), finiteSegments([gap])]).toEqual([[], []]);
    expect(finiteSegments([5])).toEqual([{ start: 0, end: 1 }]);
  });
});

describe('statistics', () => {
  it('of few values: nothing where there is nothing to say', () => {
    expect([sum([]), mean([]), variance([3]), standardDeviation([3]), rootMeanSquare([]), median([])]).toEqual([
      0,
      Number.NaN,
      Number.NaN,
      Number.NaN,
      Number.NaN,
      Number.NaN,
    ]);
    expect([mean([5]), variance([3, 5]), standardDeviation([3, 5]), median([7])]).toEqual([5, 2, Math.SQRT2, 7]);
  });

  it('root mean square, correlation and quantiles by hand', () => {
    expect(rootMeanSquare([3, -4])).toBeCloseTo(Math.sqrt(12.5), 12);
    expect(correlation([1, 2, 3], [2, 4, 6])).toBeCloseTo(1, 12);
    expect(correlation([1, 2, 3], [5, 4, 3])).toBeCloseTo(-1, 12);
    const given = [9, 1, 5, 3];
    expect([0, 0.25, 0.5, 1].map((share) => quantile(given, share))).toEqual([1, 2.5, 4, 9]);
    expect(given).toEqual([9, 1, 5, 3]);
    expect([median([9, 1, 5]), median([9, 1])]).toEqual([5, 5]);
  });
});

describe('least squares', () => {
  it('of a line by hand: values, standard errors and residuals', () => {
    const line = fitLine([0, 1, 2, 3], [1, 3, 2, 4])!;
    // Slope 8 / 10, intercept 2.5 - 0.8 * 1.5; residuals -0.3, 0.9, -0.9, 0.3, so s^2 = 1.8 / 2.
    expect(line.slope).toBeCloseTo(0.8, 12);
    expect(line.intercept).toBeCloseTo(1.3, 12);
    expect(line.residual_sd).toBeCloseTo(Math.sqrt(0.9), 12);
    expect(line.slope_se).toBeCloseTo(Math.sqrt(0.9 / 5), 12);
    expect(line.intercept_se).toBeCloseTo(Math.sqrt(0.9 * (1 / 4 + 2.25 / 5)), 12);
    expect(line.degrees_of_freedom).toBe(2);
  });

  it('has no residual to judge by where there are as many values as columns', () => {
    const fit = leastSquares(
      [
        [1, 1],
        [0, 2],
      ],
      [3, 7],
    )!;
    expect(fit.coefficients[0]).toBeCloseTo(3, 12);
    expect(fit.coefficients[1]).toBeCloseTo(2, 12);
    expect([fit.degrees_of_freedom, fit.residual_sd]).toEqual([0, Number.NaN]);
    expect(fit.residual_sum_of_squares).toBeCloseTo(0, 12);
  });

  it('is null of columns that depend on each other, and of too few values', () => {
    expect(
      leastSquares(
        [
          [1, 1, 1],
          [2, 2, 2],
        ],
        [1, 2, 3],
      ),
    ).toBeNull();
    expect(leastSquares([[0, 0, 0]], [1, 2, 3])).toBeNull();
    expect(leastSquares([[1], [2]], [3])).toBeNull();
    expect(fitLine([4, 4], [1, 2])).toBeNull();
  });

  it("says how coefficients go together: (A'A)^-1 by hand", () => {
    const { unscaled_covariance: c } = leastSquares(
      [
        [1, 1, 1, 1],
        [0, 1, 2, 3],
      ],
      [1, 3, 2, 4],
    )!;
    // A'A = [[4, 6], [6, 14]], its determinant 20.
    const wanted = [
      [14 / 20, -6 / 20],
      [-6 / 20, 4 / 20],
    ];
    wanted.forEach((row, i) => {
      row.forEach((value, j) => {
        expect(c[i][j]).toBeCloseTo(value, 12);
      });
    });
  });
});
