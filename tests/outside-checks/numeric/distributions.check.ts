import { describe, expect, test } from 'vitest';
import {
  chiSquareQuantile,
  fisherQuantile,
  fisherUpper,
  studentQuantile,
  studentTwoSided,
} from '../../../dsp/numeric/distributions.ts';
import { pythonWithScipy, runScipy } from '../../helpers/scipy.ts';

const PROBABILITIES = [1e-6, 0.001, 0.025, 0.05, 0.3, 0.49, 0.51, 0.7, 0.95, 0.975, 0.999];
const DF = [0.7, 1, 2, 3.5, 7, 12, 29.3, 100, 1234];
const ARGUMENTS = [1e-3, 0.2, 0.9, 1.1, 2.7, 6, 25];

/** Every pair or triple, in one list a distribution. */
const pairs = <A, B>(a: A[], b: B[]) => a.flatMap((x) => b.map((y) => [x, y] as const));
const studentCases = pairs(PROBABILITIES, DF);
const studentTails = pairs(ARGUMENTS, DF);
const fisherCases = pairs(studentCases, DF).map(([[p, a], b]) => [p, a, b] as const);
const fisherTails = pairs(studentTails, DF).map(([[f, a], b]) => [f, a, b] as const);

/** Largest error relative to the reference. */
function largestError(ours: number[], reference: number[]): number {
  expect(ours.length).toBe(reference.length);
  return Math.max(...ours.map((value, i) => (value === reference[i] ? 0 : Math.abs(value / reference[i] - 1))));
}

describe.skipIf(pythonWithScipy() === null)('against SciPy (skipped where no Python with SciPy is found)', () => {
  test('probabilities agree to 1e-12, and quantiles put into its distribution functions give the probability back to 1e-12', () => {
    const reference = runScipy<Record<string, number[]>>(
      `st = scipy.stats
sq, stl, fq, ftl = (np.array(inputs[k]).T for k in ('sq', 'stl', 'fq', 'ftl'))
# The smaller tail, so that no digit of it is lost.
def back(x, p, d):
    return np.where(p < 0.5, d.cdf(x) / p, d.sf(x) / (1 - p))
result = {'t': back(np.array(inputs['t']), sq[0], st.t(sq[1])), 'f': back(np.array(inputs['f']), fq[0], st.f(fq[1], fq[2])),
          'c': back(np.array(inputs['c']), sq[0], st.chi2(sq[1])),
          't_two': 2 * st.t.sf(stl[0], stl[1]), 'f_upper': st.f.sf(ftl[0], ftl[1], ftl[2])}`,
      {
        sq: studentCases,
        stl: studentTails,
        fq: fisherCases,
        ftl: fisherTails,
        t: studentCases.map(([p, df]) => studentQuantile(p, df)),
        c: studentCases.map(([p, df]) => chiSquareQuantile(p, df)),
        f: fisherCases.map(([p, a, b]) => fisherQuantile(p, a, b)),
      },
    );
    const ones = (values: number[]) => values.map(() => 1);
    const error = {
      student_quantile: largestError(ones(reference.t), reference.t),
      chi_square_quantile: largestError(ones(reference.c), reference.c),
      fisher_quantile: largestError(ones(reference.f), reference.f),
      student_two_sided: largestError(
        studentTails.map(([t, df]) => studentTwoSided(t, df)),
        reference.t_two,
      ),
      fisher_upper: largestError(
        fisherTails.map(([f, a, b]) => fisherUpper(f, a, b)),
        reference.f_upper,
      ),
    };
    for (const [name, worst] of Object.entries(error)) expect(worst, name).toBeLessThan(1e-12);
  });
});

describe('where no table reaches', () => {
  test('the median of t is 0, the two sides are mirrors, and the ends are 0 and infinity', () => {
    expect(studentQuantile(0.5, 7)).toBe(0);
    expect(studentQuantile(0.01, 7)).toBeCloseTo(-studentQuantile(0.99, 7), 12);
    expect([fisherQuantile(0, 3, 4), fisherQuantile(1, 3, 4)]).toEqual([0, Number.POSITIVE_INFINITY]);
    expect(studentTwoSided(0, 5)).toBe(1);
  });

  test('degrees of freedom beyond those above: values by mpmath 1.3 with 40 digits, rounded', () => {
    expect(studentQuantile(0.975, 1e9)).toBeCloseTo(1.9599639869123255, 13);
    expect(chiSquareQuantile(0.975, 5e4)).toBeCloseTo(50621.68715758982, 8);
    expect(fisherQuantile(0.95, 12, 5e4)).toBeCloseTo(1.752365686261814, 13);
  });
});
