import { describe, expect, test } from 'vitest';
import { fitLine, leastSquares } from '../../../dsp/numeric/least-squares.ts';
import { mean, standardDeviation } from '../../../dsp/numeric/statistics.ts';
import { equalDigits } from '../../helpers/close.ts';
import { readReference } from '../../helpers/read-reference.ts';

// Certified values: NIST Statistical Reference Datasets, itl.nist.gov/div898/strd.
const UNIVARIATE = [
  { set: 'Lew', mean: -177.435, sd: 277.332168044316 },
  { set: 'Lottery', mean: 518.95871559633, sd: 291.699727470969 },
  { set: 'Mavro', mean: 2.001856, sd: 0.000429123454003053 },
  { set: 'Michelso', mean: 299.8524, sd: 0.0790105478190518 },
];

const has = readReference('nist_Lew.csv') !== null;

describe.skipIf(!has)('univariate statistics (skipped where the reference folder is absent)', () => {
  test.each(UNIVARIATE)('$set', ({ set, mean: m, sd }) => {
    const { y } = readReference(`nist_${set}.csv`)!;
    expect(equalDigits(mean(y), m)).toBeGreaterThan(13);
    expect(equalDigits(standardDeviation(y), sd)).toBeGreaterThan(12);
  });
});

describe('univariate statistics of numbers with a large offset', () => {
  const alternate = (first: number, low: number, high: number): number[] => [
    first,
    ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? low : high)),
  ];
  test.each([
    { set: 'NumAcc1', y: [10000001, 10000003, 10000002], m: 10000002, sd: 1, digits: 14 },
    { set: 'NumAcc2', y: alternate(1.2, 1.1, 1.3), m: 1.2, sd: 0.1, digits: 12 },
    { set: 'NumAcc3', y: alternate(1000000.2, 1000000.1, 1000000.3), m: 1000000.2, sd: 0.1, digits: 8 },
    { set: 'NumAcc4', y: alternate(10000000.2, 10000000.1, 10000000.3), m: 10000000.2, sd: 0.1, digits: 7 },
  ])('$set', ({ y, m, sd, digits }) => {
    expect(equalDigits(mean(y), m)).toBeGreaterThan(13);
    expect(equalDigits(standardDeviation(y), sd)).toBeGreaterThan(digits);
  });
});

describe('linear regression', () => {
  test('NoInt2: a line through the origin', () => {
    const fit = leastSquares([[4, 5, 6]], [3, 4, 4])!;
    expect(equalDigits(fit.coefficients[0], 8 / 11)).toBeGreaterThan(14);
    expect(equalDigits(fit.standard_errors[0], 0.0420827318078432)).toBeGreaterThan(13);
    expect(equalDigits(fit.residual_sd, 0.369274472937998)).toBeGreaterThan(13);
  });

  test.skipIf(!has)('NoInt1, Norris and Pontius (skipped where the reference folder is absent)', () => {
    const noInt = readReference('nist_NoInt1.csv')!;
    const origin = leastSquares([noInt.x], noInt.y)!;
    expect(equalDigits(origin.coefficients[0], 2.07438016528926)).toBeGreaterThan(13);
    expect(equalDigits(origin.standard_errors[0], 0.0165289256198347)).toBeGreaterThan(12);

    const norris = readReference('nist_Norris.csv')!;
    const line = fitLine(norris.x, norris.y)!;
    expect(equalDigits(line.intercept, -0.262323073774029)).toBeGreaterThan(12);
    expect(equalDigits(line.slope, 1.00211681802045)).toBeGreaterThan(13);
    expect(equalDigits(line.intercept_se, 0.232818234301152)).toBeGreaterThan(12);
    expect(equalDigits(line.slope_se, 0.000429796848199937)).toBeGreaterThan(12);
    expect(equalDigits(line.residual_sd, 0.884796396144373)).toBeGreaterThan(12);

    const pontius = readReference('nist_Pontius.csv')!;
    const ones = pontius.x.map(() => 1);
    const quadratic = leastSquares([ones, pontius.x, pontius.x.map((v) => v * v)], pontius.y)!;
    const certified = [0.000673565789473684, 7.32059160401003e-7, -3.16081871345029e-15];
    const errors = [0.000107938612033077, 1.57817399981659e-10, 4.86652849992036e-17];
    for (let k = 0; k < 3; k++) {
      expect(equalDigits(quadratic.coefficients[k], certified[k])).toBeGreaterThan(10);
      expect(equalDigits(quadratic.standard_errors[k], errors[k])).toBeGreaterThan(10);
    }
  });
});
