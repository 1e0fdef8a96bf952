import { describe, expect, test } from 'vitest';
import { pairwiseScale, robustCentre, winsorised } from '../../../dsp/numeric/robust.ts';
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
  });
});

describe('robustCentre', () => {
  test('is the mean of two values, and of a bulk without outliers', () => {
    expect(robustCentre([3, 5])).toBe(4);
    expect(robustCentre([9, 10, 11, 10])).toBeCloseTo(10, 9);
    expect(robustCentre([7, 7, 7, 900])).toBeCloseTo(7, 0);
  });
});
