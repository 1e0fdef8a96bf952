import { expect, test } from 'vitest';
import { asymmetryIndices } from '../../../dsp/athlete/index.ts';

// Robinson 1987, Bishop 2018, Zifchock 2008 (formulas from memory); numbers computed for this project.
test.each([
  [1, 1, 0, 0, 0, 0],
  [1.1, 1, 9.52381, 4.761905, 9.090909, 3.029234],
  [100, 90, 10.526316, 5.263158, 10, 3.347542],
  [0.105, 0.1, 4.878049, 2.439024, 4.761905, 1.552423],
  [2.2, 2.1, 4.651163, 2.325581, 4.545455, 1.480244],
])('asymmetry indices of %d and %d', (left, right, si, bai, larger, angle) => {
  const i = asymmetryIndices(left, right);
  expect(i.symmetry_index).toBeCloseTo(si, 6);
  expect(i.bilateral_asymmetry).toBeCloseTo(bai, 6);
  expect(i.percentage_of_larger).toBeCloseTo(larger, 6);
  expect(i.symmetry_angle).toBeCloseTo(angle, 6);
  // Symmetry index is twice the bilateral one, whatever the values.
  expect(i.symmetry_index).toBeCloseTo(2 * Math.abs(i.bilateral_asymmetry), 9);
});
