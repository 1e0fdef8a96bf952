import { describe, expect, test } from 'vitest';
import type { BaselineValue } from '../../../dsp/athlete/baseline.ts';
import { compareBetween, compareWithin, levelOf } from '../../../dsp/athlete/compare-levels.ts';
import { normal } from '../../helpers/random.ts';

const value = (session: string | number, v: number): BaselineValue => ({ session, value: v, day: 0 });
const components = (between: number, within: number) => ({
  between,
  within,
  between_df: 1e6,
  within_df: 1e6,
  repetitions: 0,
  sessions: 0,
});

/**
 * Hours of sleep gained with two drugs: Student 1908, Biometrika 6:1-25. Pooled two-sample t: t = -1.8608, 18 degrees of freedom,
 * p = 0.07919, 95 % from -3.363874 to 0.203874 (R 4, t.test(extra ~ group, data = sleep, var.equal = TRUE)).
 */
const SLEEP = {
  first: [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0],
  second: [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4],
};

describe('two levels of one athlete', () => {
  test('are the pooled two-sample t of the textbooks where days do not differ', () => {
    const variance = (x: number[]) => {
      const mean = x.reduce((a, b) => a + b, 0) / x.length;
      return x.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (x.length - 1);
    };
    const pooled = (variance(SLEEP.first) + variance(SLEEP.second)) / 2;
    const found = compareWithin(
      SLEEP.second.map((v, i) => value(`b${i}`, v)),
      SLEEP.first.map((v, i) => value(`a${i}`, v)),
      { ...components(0, pooled), within_df: 18 },
    );
    expect(found.difference).toBeCloseTo(-1.58, 10);
    expect(found.low).toBeCloseTo(-3.363874, 5);
    expect(found.high).toBeCloseTo(0.203874, 5);
    expect(2 * (1 - found.certainty)).toBeCloseTo(0.07919, 4);
  });

  test('within one session what varies between days drops out, between two it counts', () => {
    // Half-width of the normal distribution, 1.959964: closed form for known variances.
    const half = (a: BaselineValue, b: BaselineValue) => {
      const { low, high } = compareWithin([a], [b], components(9, 4));
      return (high - low) / 2 / 1.959964;
    };
    expect(half(value(1, 110), value(1, 112))).toBeCloseTo(Math.sqrt(2 * 4), 3);
    expect(half(value(1, 110), value(2, 112))).toBeCloseTo(Math.sqrt(2 * (9 + 4)), 3);
  });

  test('count sessions alike, however many repetitions each has', () => {
    expect(levelOf([value(1, 100), value(1, 104), value(2, 110)])).toBe(106);
    expect(levelOf([])).toBeNaN();
  });

  test('that do not differ are told apart in 1 % of 4000 seeded comparisons, as the limit of 99 % promises', () => {
    const z = normal(7);
    const [between, within] = [3, 2];
    let told = 0;
    const side = (offset: number) =>
      [0, 1].flatMap((s) => {
        const day = Math.sqrt(between) * z();
        return [0, 1, 2].map(() => value(offset + s, 110 + day + Math.sqrt(within) * z()));
      });
    for (let i = 0; i < 4000; i++) {
      if (compareWithin(side(0), side(2), components(between, within)).certainty > 0.995) told += 1;
    }
    // Binomial, 4000 times 1 %: 40, SD 6.3; four SD either way.
    expect(told).toBeGreaterThan(40 - 26);
    expect(told).toBeLessThan(40 + 26);
  });
});

describe('levels of two athletes', () => {
  test('add the variation of either and the measuring error of the difference', () => {
    const a = { values: [value(1, 100), value(1, 102)], components: components(4, 2) };
    const b = { values: [value(1, 110)], components: components(1, 8) };
    const { low, high, difference } = compareBetween(a, b, 3);
    expect(difference).toBe(9);
    // Sessions of two people are never the same, whatever their keys: 4 + 2 / 2 + 1 + 8 + 3^2.
    expect((high - low) / 2 / 1.959964).toBeCloseTo(Math.sqrt(23), 3);
  });
});
