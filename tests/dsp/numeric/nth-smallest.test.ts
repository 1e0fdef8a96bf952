import { expect, test } from 'vitest';
import { nthSmallest } from '../../../dsp/numeric/nth-smallest.ts';
import { normal, uniform } from '../../helpers/random.ts';

test('is at every place the value that sorting puts there, with equal values and in any order to begin with', () => {
  const [z, u] = [normal(7), uniform(8)];
  const samples = Array.from({ length: 60 }, (_, n) => Float64Array.from({ length: n + 1 }, () => z()));
  const equal = Array.from({ length: 60 }, (_, n) => Float64Array.from({ length: n + 1 }, () => Math.floor(4 * u())));
  const ordered = [Float64Array.from({ length: 33 }, (_, i) => i), Float64Array.from({ length: 33 }, (_, i) => -i)];
  for (const values of [...samples, ...equal, ...ordered]) {
    const sorted = [...values].sort((a, b) => a - b);
    for (let place = 0; place < values.length; place++) {
      const moved = values.slice();
      expect(nthSmallest(moved, place)).toBe(sorted[place]);
      // Moved about, none lost.
      expect([...moved].sort((a, b) => a - b)).toEqual(sorted);
    }
  }
});

test('of no values is not a number', () => {
  expect(nthSmallest(new Float64Array(0), 0)).toBeNaN();
});
