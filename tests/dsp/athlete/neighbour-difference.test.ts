import { describe, expect, test } from 'vitest';
import { neighbourDifference, type SidedValue } from '../../../dsp/athlete/index.ts';
import { normal } from '../../helpers/random.ts';

const steps = (values: number[]): SidedValue[] =>
  values.map((value, i) => ({ step: i + 1, side: i % 2 === 0 ? 'left' : 'right', value }));

describe('left against right between neighbouring steps', () => {
  test('a steady change along the repetition is no difference of sides', () => {
    // Contact shortens by 6 ms a step: comparing all left with all right would find 6 ms.
    const falling = steps(Array.from({ length: 8 }, (_, i) => 150 - 6 * i));
    expect(neighbourDifference(falling)!.difference).toBeCloseTo(0, 9);
    const uneven = falling.map((s) => ({ ...s, value: s.value + (s.side === 'left' ? 5 : -5) }));
    expect(neighbourDifference(uneven)!.difference).toBeCloseTo(10, 9);
  });

  test('a missing step breaks the chain instead of pairing steps that are no neighbours', () => {
    const gap = steps([110, 100, 111, 101, 150, 102]).filter((s) => s.step !== 4);
    expect(neighbourDifference(gap)!.pairs).toBe(3);
    expect(neighbourDifference(steps([110, 100]))).toBeNull();
  });

  test('its uncertainty covers the truth in about 95 of 100', () => {
    const z = normal(8);
    let covered = 0;
    for (let r = 0; r < 1000; r++) {
      const made = steps(Array.from({ length: 14 }, (_, i) => 110 + (i % 2 === 0 ? 2 : -2) - i + 4 * z()));
      const { difference, difference_u } = neighbourDifference(made)!;
      if (Math.abs(difference - 4) < 2.16 * difference_u!) covered++;
    }
    expect(covered).toBeGreaterThan(920);
    expect(covered).toBeLessThan(980);
  });
});
