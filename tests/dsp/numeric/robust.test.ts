import { describe, expect, test } from 'vitest';
import { pairwiseScale, robustCentre, robustSpread, weightedMean, winsorised } from '../../../dsp/numeric/robust.ts';
import { normal } from '../../helpers/random.ts';

/** Mean of the estimator over many normal samples of n values with SD 1. */
function meanScale(n: number): number {
  const z = normal(100 + n);
  const rounds = 4000;
  let sum = 0;
  for (let r = 0; r < rounds; r++) sum += pairwiseScale(Array.from({ length: n }, z));
  return sum / rounds;
}

describe('pairwiseScale', () => {
  // Rousseeuw and Croux 1993, J Am Stat Assoc 88:1273-1283: its factors make it unbiased at the normal distribution, odd and even n alike.
  test.each([2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 15, 20, 21])('is 1 on average for %i normal values of SD 1', (n) => {
    expect(Math.abs(meanScale(n) - 1)).toBeLessThan(0.03);
  });

  test('grows with the scale, does not move with the centre, and holds with two of five far off', () => {
    const values = [1, 2, 4, 7, 11];
    const scale = pairwiseScale(values);
    expect(pairwiseScale(values.map((v) => 100 - 3 * v))).toBeCloseTo(3 * scale, 12);
    expect(pairwiseScale([1, 2, 4, 1e6, -1e6])).toBeLessThan(20);
  });

  test('has nothing to say of one value', () => {
    expect(pairwiseScale([5])).toBeNaN();
    expect(pairwiseScale([5, 5, 5, 5])).toBe(0);
  });
});

describe('winsorised', () => {
  test('pulls in what lies beyond three robust standard deviations, and nothing else', () => {
    const values = [10, 11, 9, 10.5, 9.5, 10.2, 99];
    const pulled = winsorised(values);
    expect([...pulled.slice(0, 6)]).toEqual(values.slice(0, 6));
    // Median 10.2; the bound follows from the scale of the values themselves.
    expect(pulled[6]).toBeCloseTo(10.2 + 3 * pairwiseScale(values), 12);
    expect([...winsorised([1, 2, 99])]).toEqual([1, 2, 99]);
    const low = values.map((v) => 20.4 - v);
    expect(winsorised(low)[6]).toBeCloseTo(10.2 - 3 * pairwiseScale(values), 12);
    // More than half alike: the scale is zero, and what is not zero stays.
    expect([...winsorised([4, 4, 4, 4, 9])]).toEqual([4, 4, 4, 4, 9]);
  });

  test('robustSpread is the standard deviation of what was pulled in', () => {
    expect(robustSpread([1, 2, 3, 4])).toBeCloseTo(Math.sqrt(5 / 3), 12);
    const far = [10, 11, 9, 10.5, 9.5, 10.2, 99];
    expect(robustSpread(far)).toBeLessThan(6);
  });
});

describe('weightedMean', () => {
  test('counts by shares', () => {
    expect(weightedMean([1, 4], [2, 1])).toBe(2);
    expect(weightedMean([7, 100], [3, 0])).toBe(7);
    expect(weightedMean([], [])).toBeNaN();
  });
});

describe('robustCentre', () => {
  test('is the mean of two values, and of a bulk without outliers', () => {
    expect(robustCentre([3, 5])).toBe(4);
    expect(robustCentre([9, 10, 11, 10])).toBeCloseTo(10, 9);
    expect(robustCentre([7, 7, 7, 900])).toBeCloseTo(7, 0);
  });

  test('lets a far value pull with bounded force: moving it further moves nothing', () => {
    const near = robustCentre([1, 2, 3, 4, 50]);
    expect(robustCentre([1, 2, 3, 4, 5000])).toBeCloseTo(near, 9);
    expect(near).toBeGreaterThan(2.5);
    expect(near).toBeLessThan(4);
    // Where the estimating equation holds: clipped residuals, in robust scales, add up to nothing (Huber 1964, k 1.345).
    const values = [1, 2, 3, 4, 50];
    const scale = pairwiseScale(values);
    const psi = values.map((v) => Math.max(-1.345, Math.min(1.345, (v - near) / scale)));
    expect(psi.reduce((a, b) => a + b, 0)).toBeCloseTo(0, 6);
  });

  test('with shares is the weighted mean of a bulk, and of two', () => {
    expect(robustCentre([3, 5], [3, 1])).toBe(3.5);
    expect(robustCentre([9, 10, 11, 10], [1, 1, 1, 5])).toBeCloseTo(10, 9);
    const weighted = robustCentre([9, 10, 11, 10.5], [4, 1, 1, 1]);
    expect(weighted).toBeCloseTo(weightedMean([9, 10, 11, 10.5], [4, 1, 1, 1]), 6);
    expect(robustCentre([])).toBeNaN();
  });

  test('of values that are nearly all the same is that value', () => {
    expect(robustCentre([7, 7, 7, 7])).toBe(7);
  });
});
