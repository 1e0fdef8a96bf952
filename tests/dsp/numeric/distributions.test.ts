/** Distributions where they have a closed form; tests/outside-checks/numeric compares the rest with SciPy. */
import { describe, expect, it } from 'vitest';
import {
  chiSquareQuantile,
  fisherQuantile,
  fisherUpper,
  studentQuantile,
  studentTwoSided,
} from '../../../dsp/numeric/distributions.ts';
import { incompleteBeta, incompleteGamma, quantileOf } from '../../../dsp/numeric/incomplete-functions.ts';
import { betaTerm, gammaTerm } from '../../../dsp/numeric/saddle-point.ts';

const PROBABILITIES = [1e-9, 0.001, 0.05, 0.3, 0.5, 0.7, 0.975, 0.999999];
/** Relative, so that small tails count. */
const near = (found: number, wanted: number, what = '') =>
  expect(Math.abs(found - wanted), `${what} ${found} ${wanted}`).toBeLessThanOrEqual(2e-13 * Math.abs(wanted) + 1e-300);

describe("Student's t", () => {
  it('with one degree of freedom is Cauchy, with two an algebraic function', () => {
    for (const p of PROBABILITIES) {
      const cauchy = p < 0.5 ? -1 / Math.tan(Math.PI * p) : 1 / Math.tan(Math.PI * (1 - p));
      if (p !== 0.5) near(studentQuantile(p, 1) / cauchy, 1, `t1 ${p}`);
      const two = (2 * p - 1) / Math.sqrt(2 * p * (1 - p));
      if (p !== 0.5) near(studentQuantile(p, 2) / two, 1, `t2 ${p}`);
    }
    for (const t of [0, 0.3, 1, 2.5, 40]) {
      near(studentTwoSided(t, 1), 1 - (2 / Math.PI) * Math.atan(t));
      near(studentTwoSided(-t, 2), 2 / (2 + t * t + t * Math.sqrt(2 + t * t)));
    }
    expect([studentQuantile(0, 5), studentQuantile(1, 5)]).toEqual([
      Number.NEGATIVE_INFINITY,
      Number.POSITIVE_INFINITY,
    ]);
  });
});

describe('chi-square', () => {
  it('with two degrees of freedom is exponential; with four its quantile gives the probability back', () => {
    for (const p of PROBABILITIES) {
      near(chiSquareQuantile(p, 2), -2 * Math.log1p(-p));
      const x = chiSquareQuantile(p, 4) / 2;
      const upper = Math.exp(-x) * (1 + x);
      if (p >= 0.3) near(upper, 1 - p, `chi4 ${p}`);
    }
    expect([chiSquareQuantile(0, 3), chiSquareQuantile(1, 3)]).toEqual([0, Number.POSITIVE_INFINITY]);
  });
});

describe("Fisher's F", () => {
  it('with two degrees of freedom above the line is a power, and its mirror below', () => {
    for (const m of [1, 2, 5.5, 40, 3000]) {
      for (const f of [0, 1e-4, 0.5, 1, 7, 300]) near(fisherUpper(f, 2, m), (1 + (2 * f) / m) ** (-m / 2), `F2,${m}`);
      for (const p of PROBABILITIES) {
        near(fisherQuantile(p, 2, m), (m / 2) * Math.expm1((-2 / m) * Math.log1p(-p)), `F2,${m} at ${p}`);
        near(fisherQuantile(p, m, 2), 1 / ((m / 2) * Math.expm1((-2 / m) * Math.log(p))), `F${m},2 at ${p}`);
      }
    }
  });

  it('is no number for what is no distribution', () => {
    for (const [f, a, b] of [
      [-1, 2, 3],
      [1, 0, 3],
      [1, 2, 0],
      [Number.NaN, 2, 3],
      [1, Number.NaN, 3],
    ]) {
      expect(fisherUpper(f, a, b)).toBeNaN();
    }
    for (const [p, a, b] of [
      [-0.1, 2, 3],
      [1.1, 2, 3],
      [0.5, 0, 3],
      [0.5, 2, -1],
      [Number.NaN, 2, 3],
    ]) {
      expect(fisherQuantile(p, a, b)).toBeNaN();
    }
  });
});

describe('incomplete functions', () => {
  it('beta: powers where one parameter is 1, and mirrors', () => {
    for (const a of [0.3, 1, 4, 60]) {
      for (const x of [0.001, 0.2, 0.5, 0.9, 0.999]) {
        const { lower, upper } = incompleteBeta(a, 1, x, 1 - x);
        near(lower, x ** a);
        near(upper, -Math.expm1(a * Math.log(x)));
        const mirror = incompleteBeta(1, a, 1 - x, x);
        near(mirror.upper, x ** a);
      }
    }
    // Symmetric about the middle.
    near(incompleteBeta(7.5, 7.5, 0.5, 0.5).lower, 0.5);
    expect(incompleteBeta(2, 3, 0, 1)).toEqual({ lower: 0, upper: 1 });
    expect(incompleteBeta(2, 3, 1, 0)).toEqual({ lower: 1, upper: 0 });
    // 1 - (1 - x)^3 (1 + 3 x), by hand.
    near(incompleteBeta(2, 3, 0.4, 0.6).upper, 0.6 ** 3 * (1 + 3 * 0.4));
  });

  it('gamma: exponentials of whole numbers on both sides of its middle', () => {
    for (const x of [0.01, 0.7, 1.9, 2.1, 5, 30]) {
      near(incompleteGamma(1, x).upper, Math.exp(-x));
      near(incompleteGamma(1, x).lower, -Math.expm1(-x));
      near(incompleteGamma(3, x).upper, Math.exp(-x) * (1 + x + (x * x) / 2));
    }
    // erf(1), NIST DLMF 7.23 (Abramowitz and Stegun, table 7.1).
    expect(incompleteGamma(0.5, 1).lower).toBeCloseTo(0.8427007929497149, 14);
    expect(incompleteGamma(2, 0)).toEqual({ lower: 0, upper: 1 });
  });

  it('their density terms, by hand where gamma functions are factorials', () => {
    near(betaTerm(2, 3, 0.4, 0.6), 0.4 ** 2 * 0.6 ** 3 * 12);
    near(betaTerm(1, 1, 0.3, 0.7), 0.3 * 0.7);
    // 37! / (19! 17!).
    near(betaTerm(20, 18, 0.55, 0.45), 0.55 ** 20 * 0.45 ** 18 * 318_107_374_200, 'beta 20, 18');
    expect([betaTerm(2, 3, 0, 1), betaTerm(2, 3, 1, 0)]).toEqual([0, 0]);
    near(gammaTerm(1, 0.8), 0.8 * Math.exp(-0.8));
    near(gammaTerm(5, 3), (3 ** 5 * Math.exp(-3)) / 24);
    expect(gammaTerm(2, 0)).toBe(0);
  });

  it('quantileOf solves for the smaller tail, and knows its ends', () => {
    const tails = (x: number) => ({ lower: -Math.expm1(-x), upper: Math.exp(-x) });
    const slope = (x: number) => x * Math.exp(-x);
    near(quantileOf(tails, slope, { lower: 1e-12, upper: 1 - 1e-12 }), -Math.log1p(-1e-12));
    near(quantileOf(tails, slope, { lower: 1, upper: 1e-12 }), -Math.log(1e-12));
    expect(quantileOf(tails, slope, { lower: 0, upper: 1 })).toBe(0);
    expect(quantileOf(tails, slope, { lower: 1, upper: 0 })).toBe(Number.POSITIVE_INFINITY);
  });
});
