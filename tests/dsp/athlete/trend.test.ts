import { describe, expect, test } from 'vitest';
import { type BaselineValue, changePoints, sessionDropOff, sideDifference, trend } from '../../../dsp/athlete/index.ts';
import { normal } from '../../helpers/random.ts';

/** Sessions twice a week of four repetitions; `level` gives the athlete's level at a session. */
function history(sessions: number, level: (session: number) => number, seed: number): BaselineValue[] {
  const z = normal(seed);
  return Array.from({ length: sessions }, (_, s) =>
    Array.from({ length: 4 }, () => ({ value: level(s) + 3 * z(), session: s, day: Math.round(3.5 * s) })),
  ).flat();
}

describe('trend', () => {
  test('its interval holds the true slope in about 95 % of athletes', () => {
    let covered = 0;
    for (let seed = 0; seed < 400; seed++) {
      const t = trend(history(10, (s) => 120 - s, seed))!;
      if (t.slope_low <= -2 && -2 <= t.slope_high) covered++;
    }
    expect(covered / 400).toBeGreaterThan(0.91);
    expect(covered / 400).toBeLessThan(0.99);
  });

  test('no trend is called one in about 5 % of athletes', () => {
    let called = 0;
    for (let seed = 0; seed < 400; seed++) if (trend(history(10, () => 120, seed))!.beyond_chance) called++;
    expect(called / 400).toBeLessThan(0.08);
  });

  test('a steady climb is a line without jumps, a jump is a jump', () => {
    expect(trend(history(16, (s) => 120 - s, 3))!.changes).toEqual([]);
    const [jump] = trend(history(16, (s) => (s < 8 ? 120 : 112), 4))!.changes;
    expect(jump.at_session).toBe(8);
    expect(Math.abs(jump.before - 120)).toBeLessThan(2);
    expect(Math.abs(jump.after - 112)).toBeLessThan(2);
  });

  test('needs four sessions', () => {
    expect(trend(history(3, () => 120, 1))).toBeNull();
  });
});

describe('changePoints', () => {
  test.each([8, 12, 20, 40])('finds jumps that are not there in at most 6 %% of series of %d', (n) => {
    const z = normal(n);
    let found = 0;
    for (let r = 0; r < 800; r++) if (changePoints(Array.from({ length: n }, z)).length > 0) found++;
    expect(found / 800).toBeLessThan(0.07);
  });

  test('finds a jump of two SDs in the middle of 20 sessions in 80 % and more', () => {
    const z = normal(77);
    let found = 0;
    for (let r = 0; r < 400; r++) {
      const jumps = changePoints(Array.from({ length: 20 }, (_, i) => z() + (i >= 10 ? 2 : 0)));
      if (jumps.some(({ index }) => Math.abs(index - 10) <= 3)) found++;
    }
    expect(found / 400).toBeGreaterThan(0.8);
  });
});

describe('sessionDropOff', () => {
  test('measures the drift and applies the coach’s own rule', () => {
    const rule = { limit_percent: 4, in_a_row: 2, worse: 'more' } as const;
    const drop = sessionDropOff([120, 120, 121, 122, 125, 126], rule)!;
    expect(drop.fresh).toBe(120);
    expect(drop.change_percent).toBeCloseTo((100 * 5.5) / 120, 9);
    expect([drop.beyond_limit_in_a_row, drop.stop]).toEqual([2, true]);
    expect(drop.slope!.low).toBeGreaterThan(0);
    expect(sessionDropOff([120, 120, 121, 126, 121], rule)!.stop).toBe(false);
    expect(sessionDropOff([9, 9, 8.5, 8.5], { ...rule, worse: 'less' })!.stop).toBe(true);
    expect(sessionDropOff([120, 121], rule)).toBeNull();
  });
});

describe('sideDifference', () => {
  test('sets the difference against the variation within a side', () => {
    const small = sideDifference([120, 124, 118, 122], [121, 119, 123, 120])!;
    expect([small.beyond_chance, small.beyond_within_side]).toEqual([false, false]);
    const large = sideDifference([130, 131, 129, 130], [120, 121, 119, 120])!;
    expect([large.beyond_chance, large.beyond_within_side]).toEqual([true, true]);
    expect(large.difference).toBe(10);
    expect(large.left.cv_percent!).toBeLessThan(1);
    expect(sideDifference([1], [1, 2])).toBeNull();
  });

  test('many contacts make a small difference certain, not large: it stays below the variation within a side', () => {
    const z = normal(8);
    const left = Array.from({ length: 400 }, () => 121 + 4 * z());
    const right = Array.from({ length: 400 }, () => 120 + 4 * z());
    const d = sideDifference(left, right)!;
    expect([d.beyond_chance, d.beyond_within_side]).toEqual([true, false]);
  });
});
