import { describe, expect, test } from 'vitest';
import {
  agreement,
  concordance,
  correlation,
  type IntraclassForm,
  intraclassCorrelation,
  oneWayAnova,
  reliability,
  repeatabilityCoefficient,
  repeatedAgreement,
  sdOfSingleDifferences,
  standardErrorOfMeasurement,
  twoWayAnova,
} from '../../../dsp/agreement/index.ts';
import { chiSquareQuantile, fisherQuantile, studentQuantile } from '../../../dsp/numeric/distributions.ts';
import { equalDigits } from '../../helpers/close.ts';
import { readReference } from '../../helpers/read-reference.ts';
import { pythonWithScipy, runScipy } from '../../helpers/scipy.ts';

/** Bland and Altman 1986, Lancet 327:307-310, table I: peak expiratory flow of 17 subjects, l/min. */
const WRIGHT_1 = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427];
const WRIGHT_2 = [490, 397, 512, 401, 470, 611, 415, 431, 638, 429, 420, 633, 275, 492, 165, 372, 421];
const MINI_1 = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451];
const MINI_2 = [525, 415, 508, 444, 500, 625, 460, 390, 642, 432, 420, 605, 227, 467, 268, 370, 443];

describe('Bland and Altman 1986', () => {
  test('first readings: the printed bias, SD, limits and confidence intervals', () => {
    const a = agreement(WRIGHT_1, MINI_1, { multiplier: 2 });
    expect(a.bias.value).toBeCloseTo(-2.1, 1);
    expect(a.sd).toBeCloseTo(38.8, 1);
    // Printed -79.7 and 75.5, from the rounded mean and SD.
    expect(Math.abs(a.lower_limit.value - -79.7)).toBeLessThan(0.1);
    expect(Math.abs(a.upper_limit.value - 75.5)).toBeLessThan(0.1);
    // Printed -22.0 to 17.8 (from memory), -114.3 to -45.1, and 40.9 to 110.1 (from memory).
    expect(a.bias.low).toBeCloseTo(-22.0488, 4);
    expect(a.bias.high).toBeCloseTo(17.8135, 4);
    expect(Math.abs(a.lower_limit.low - -114.3)).toBeLessThan(0.2);
    expect(Math.abs(a.lower_limit.high - -45.1)).toBeLessThan(0.1);
    expect(Math.abs(a.upper_limit.low - 40.9)).toBeLessThan(0.1);
    expect(Math.abs(a.upper_limit.high - 110.1)).toBeLessThan(0.2);
  });

  test('first readings: to all digits (recomputed for this project, independently of this code)', () => {
    const a = agreement(WRIGHT_1, MINI_1);
    expect(a.bias.value).toBeCloseTo(-2.117647058823529, 12);
    expect(a.sd).toBeCloseTo(38.76512987360738, 11);
    expect(a.lower_limit.value).toBeCloseTo(-78.097301611094, 9);
    expect(a.upper_limit.value).toBeCloseTo(73.862007493447, 9);
    expect(correlation(WRIGHT_1, MINI_1)).toBeCloseTo(0.943279446890946, 13);
    expect(concordance(WRIGHT_1, MINI_1)).toBeCloseTo(0.942742431427485, 13);
  });

  test('repeatability of each meter: printed 43.2 and 56.4 (from memory)', () => {
    expect(repeatabilityCoefficient(WRIGHT_1, WRIGHT_2)).toBeCloseTo(43.2938, 4);
    expect(repeatabilityCoefficient(MINI_1, MINI_2)).toBeCloseTo(56.3163, 4);
    const wright = reliability(WRIGHT_1.map((v, i) => [v, WRIGHT_2[i]]));
    // Typical error = SD of differences / sqrt 2 (Hopkins 2000): 21.724038 / sqrt 2.
    expect(wright.typical_error).toBeCloseTo(15.361215, 5);
    expect(wright.within_subject_sd).toBeCloseTo(15.306669, 5);
  });

  test('means of two readings: corrected SD 37.7 (from memory)', () => {
    const { bias, sd } = sdOfSingleDifferences(
      WRIGHT_1.map((v, i) => [v, WRIGHT_2[i]]),
      MINI_1.map((v, i) => [v, MINI_2[i]]),
    );
    expect(bias).toBeCloseTo(-6.029412, 6);
    expect(sd).toBeCloseTo(37.654778, 5);
  });
});

describe('Bland and Altman 1999 and 2007: cardiac output by two methods, 12 subjects, 60 pairs', () => {
  // Stat Methods Med Res 8:135-160, table 4; J Biopharm Stat 17:571-582. Data and printed results from memory.
  const RADIONUCLIDE = [
    [7.83, 7.42, 7.89, 7.12, 7.88],
    [6.16, 7.26, 6.71, 6.54],
    [4.75, 5.24, 4.86, 4.78, 6.05, 5.42],
    [4.21, 3.61, 3.72, 3.87, 3.92],
    [3.13, 2.98, 2.85, 3.17, 3.09, 3.12],
    [5.92, 6.42, 5.92, 6.27],
    [7.13, 6.62, 6.58, 6.93],
    [4.54, 4.81, 5.11, 5.29, 5.39, 5.57],
    [4.48, 4.92, 3.97],
    [4.22, 4.65, 4.74, 4.44, 4.5],
    [6.78, 6.07, 6.52, 6.42, 6.41, 5.76],
    [5.06, 4.72, 4.9, 4.8, 4.9, 5.1],
  ];
  const IMPEDANCE = [
    [6.57, 5.62, 6.9, 6.57, 6.35],
    [4.06, 4.29, 4.26, 4.09],
    [4.71, 5.5, 5.08, 5.02, 6.01, 5.67],
    [4.14, 4.2, 4.61, 4.68, 5.04],
    [3.03, 2.86, 2.77, 2.46, 2.32, 2.43],
    [5.9, 5.81, 5.7, 5.76],
    [5.09, 4.63, 4.61, 5.09],
    [4.72, 4.61, 4.36, 4.2, 4.36, 4.2],
    [3.17, 3.12, 2.96],
    [4.35, 4.62, 3.16, 3.53, 3.53],
    [7.2, 6.09, 7, 7.1, 7.4, 6.8],
    [4.5, 4.2, 3.8, 3.8, 4.2, 4.5],
  ];

  test('mean difference 0.60, SD 0.99, limits -1.34 and 2.54', () => {
    const a = repeatedAgreement(RADIONUCLIDE.map((row, i) => row.map((v, j) => v - IMPEDANCE[i][j])));
    expect([a.subjects, a.pairs]).toEqual([12, 60]);
    expect(a.bias.value).toBeCloseTo(0.6022, 4);
    expect(a.sd).toBeCloseTo(0.991, 3);
    expect(a.lower_limit.value).toBeCloseTo(-1.34, 2);
    expect(a.upper_limit.value).toBeCloseTo(2.54, 2);
  });
});

describe('Shrout and Fleiss 1979, table 2: six targets, four judges', () => {
  const RATINGS = [
    [9, 2, 5, 8],
    [6, 1, 3, 2],
    [8, 4, 6, 8],
    [7, 1, 2, 6],
    [10, 5, 6, 9],
    [6, 2, 4, 7],
  ];
  test('mean squares as printed: 11.24, 6.26, 32.49, 1.02', () => {
    const a = twoWayAnova(RATINGS);
    expect(a.rows.mean_square).toBeCloseTo(11.241667, 6);
    expect(a.within.mean_square).toBeCloseTo(6.263889, 6);
    expect(a.columns.mean_square).toBeCloseTo(32.486111, 6);
    expect(a.error.mean_square).toBeCloseTo(1.019444, 6);
  });

  // Printed .17 .29 .71 .44 .62 .91; further digits and intervals computed for this project from the paper's formulas.
  test.each<[IntraclassForm, number, number, number, number]>([
    ['1,1', 0.17, 0.165741768405, -0.132932, 0.72256],
    ['2,1', 0.29, 0.289763779528, 0.018787, 0.761084],
    ['3,1', 0.71, 0.714840714841, 0.342465, 0.945858],
    ['1,k', 0.44, 0.442797133679, -0.884442, 0.912415],
    ['2,k', 0.62, 0.620050547599, 0.071137, 0.927232],
    ['3,k', 0.91, 0.909315542377, 0.675675, 0.985892],
  ])('ICC(%s)', (form, printed, value, low, high) => {
    const icc = intraclassCorrelation(RATINGS, form);
    expect(icc.value).toBeCloseTo(printed, 2);
    expect(icc.value).toBeCloseTo(value, 11);
    expect(icc.low).toBeCloseTo(low, 5);
    expect(icc.high).toBeCloseTo(high, 5);
  });

  test('F tests', () => {
    expect(intraclassCorrelation(RATINGS, '1,1').f).toBeCloseTo(1.794678, 6);
    expect(intraclassCorrelation(RATINGS, '1,1').p).toBeCloseTo(0.164769, 6);
    expect(intraclassCorrelation(RATINGS, '3,1').p).toBeCloseTo(1.34567e-4, 8);
    expect(reliability(RATINGS).typical_error).toBeCloseTo(1.009675, 6);
  });
});

test('a standard error of 5 makes a minimal detectable change of 13.859293 (computed for this project)', () => {
  expect(1.96 * Math.SQRT2 * standardErrorOfMeasurement(10, 0.75)).toBeCloseTo(13.859293, 6);
});

describe.skipIf(readReference('nist_SiRstv_anova.csv') === null)('NIST (skipped without the reference folder)', () => {
  test('SiRstv, one-way analysis of variance (itl.nist.gov/div898/strd)', () => {
    const columns = readReference('nist_SiRstv_anova.csv')!;
    const a = oneWayAnova(Object.values(columns));
    expect([a.between.df, a.within.df]).toEqual([4, 20]);
    expect(equalDigits(a.between.sum_of_squares, 5.11462616e-2)).toBeGreaterThan(9);
    expect(equalDigits(a.within.sum_of_squares, 2.1663656e-1)).toBeGreaterThan(9);
    expect(equalDigits(a.f, 1.18046237440255)).toBeGreaterThan(9);
  });
});

describe.skipIf(pythonWithScipy() === null)(
  'quantiles against SciPy (skipped where no Python with SciPy is found)',
  () => {
    test('Student, Fisher and chi-square', () => {
      const cases = [0.005, 0.025, 0.3, 0.9, 0.975, 0.999].flatMap((p) =>
        [1, 2.5, 5, 16, 200].map((df) => ({ p, df })),
      );
      const reference = runScipy<number[][]>(
        `result = [[scipy.stats.t.ppf(c['p'], c['df']), scipy.stats.f.ppf(c['p'], c['df'], 7.3), scipy.stats.chi2.ppf(c['p'], c['df'])] for c in inputs]`,
        cases,
      );
      cases.forEach(({ p, df }, i) => {
        const ours = [studentQuantile(p, df), fisherQuantile(p, df, 7.3), chiSquareQuantile(p, df)];
        ours.forEach((value, k) => {
          expect(Math.abs(value / reference[i][k] - 1), `p ${p} df ${df} kind ${k}`).toBeLessThan(1e-6);
        });
      });
    });
  },
);
