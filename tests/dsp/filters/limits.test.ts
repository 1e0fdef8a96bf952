import { describe, expect, test } from 'vitest';
import { designHighPass, designLowPass } from '../../../dsp/filters/design.ts';
import { toUniformGrid } from '../../../dsp/filters/resample.ts';

const refused = expect.objectContaining({ code: 'FILTER_DESIGN_INVALID' });
const codeOf = (make: () => unknown): unknown => {
  try {
    make();
  } catch (error) {
    return error;
  }
  return null;
};

describe('a filter design', () => {
  test('is refused where rounding would leave a pole on or outside the unit circle', () => {
    // So close to 0 that a double cannot tell the poles from 1.
    for (const cutoff of [1e-7, 1e-9])
      expect(
        codeOf(() => designLowPass(cutoff, 1000, 2)),
        `${cutoff}`,
      ).toEqual(refused);
    for (const design of [designLowPass, designHighPass]) {
      for (const { a1, a2 } of [...design(0.01, 1000, 2), ...design(499, 1000, 8)]) {
        expect(Math.abs(a2)).toBeLessThan(1);
        expect(Math.abs(a1)).toBeLessThan(1 + a2);
      }
    }
  });

  test('is refused at and beyond half the rate, at 0, and with an order that is odd, 0 or above 24', () => {
    for (const cutoff of [0, -1, 500, 501, Number.NaN])
      expect(
        codeOf(() => designLowPass(cutoff, 1000)),
        `${cutoff}`,
      ).toEqual(refused);
    for (const order of [0, 1, 3, 26, 2.5])
      expect(
        codeOf(() => designLowPass(50, 1000, order)),
        `${order}`,
      ).toEqual(refused);
    expect(designLowPass(50, 1000, 24).length).toBe(12);
  });
});

describe('a loss that nobody listed', () => {
  const without = (lost: number[]) => {
    const time = Float64Array.from({ length: 60 }, (_, i) => i / 100).filter((_, i) => !lost.includes(i));
    return toUniformGrid(time, [time.slice()], 100);
  };

  test('of one sample is bridged, of two is a gap: intervals from 2.5 on belong to nothing', () => {
    const one = without([30]);
    expect(one.measured[30]).toBe(1);
    expect(one.columns[0][30]).toBeCloseTo(0.3, 9);
    const two = without([30, 31]);
    expect([two.measured[30], two.measured[31]]).toEqual([0, 0]);
    expect(two.columns[0][30]).toBeNaN();
    expect([two.measured[29], two.measured[32]]).toEqual([1, 1]);
  });
});
