import type { FaultCode } from '../../shared/fault-codes.ts';
import { describe, expect, test } from 'vitest';
import { keyRange, clampRange, zoomRange } from '../../web/pages/repetition/signal-range.ts';
import { bandAt } from '../../web/parts/plot/band-at.ts';
import { rangeOf } from '../../web/parts/plot/scale.ts';
import { niceTicks } from '../../shared/nice-ticks.ts';
import { choicesOf } from '../../web/pages/files/choices-of.ts';

describe('scales', () => {
  test('ticks are round and inside', () => {
    expect(niceTicks(93, 187, 5)).toEqual([100, 120, 140, 160, 180]);
    expect(niceTicks(0.1, 0.42, 4)).toHaveLength(4);
  });

  test('a range is never narrower than what noise fills, and holds all values', () => {
    const [low, high] = rangeOf([100, 102, null], 40);
    expect(high - low).toBeGreaterThanOrEqual(40);
    expect(low).toBeLessThan(100);
    expect(high).toBeGreaterThan(102);
  });
});

describe('bandAt', () => {
  const point = (at: number, centre: number) => ({ at, centre, low: centre - 1, high: centre + 1, flag_from: 3 });

  test('is linear between points and null outside of them', () => {
    const points = [point(1, 10), point(3, 20)];
    expect(bandAt(points, 2)).toEqual(point(2, 15));
    expect(bandAt(points, 3)).toEqual(point(3, 20));
    expect(bandAt(points, 0.5)).toBeNull();
    expect(bandAt(points, 3.1)).toBeNull();
    expect(bandAt([], 1)).toBeNull();
  });
});

describe('the window on a signal', () => {
  const whole = { from_s: 0, to_s: 10 };

  test('zooms about its middle and stays inside the recording', () => {
    expect(zoomRange({ from_s: 4, to_s: 8 }, 0.5)).toEqual({ from_s: 5, to_s: 7 });
    expect(clampRange({ from_s: -3, to_s: 3 }, whole)).toEqual({ from_s: 0, to_s: 6 });
    expect(clampRange({ from_s: -30, to_s: 30 }, whole)).toEqual(whole);
  });

  test('answers to its keys and to no others', () => {
    expect(keyRange('0', { from_s: 4, to_s: 5 }, whole)).toEqual(whole);
    expect(keyRange('ArrowRight', { from_s: 4, to_s: 5 }, whole)).toEqual({ from_s: 4.2, to_s: 5.2 });
    expect(keyRange('Tab', { from_s: 4, to_s: 5 }, whole)).toBeNull();
  });
});

describe('choicesOf', () => {
  const fault = (choices: string | null, code: FaultCode = 'LAYOUT_AMBIGUOUS') => ({
    code,
    message: '',
    hint: '',
    where: { choices },
  });

  test('reads the ways to read an ambiguous file', () => {
    expect(choicesOf(fault('in g: {"acc_unit":"g"} | in m/s2: {"acc_unit":"m/s2","text":{"delimiter":"|"}}'))).toEqual([
      { label: 'in g', correction: '{"acc_unit":"g"}' },
      { label: 'in m/s2', correction: '{"acc_unit":"m/s2","text":{"delimiter":"|"}}' },
    ]);
  });

  test('offers nothing where there is no question or no way', () => {
    expect(choicesOf(fault(null))).toEqual([]);
    expect(choicesOf(fault('in g: {"acc_unit":"g"}', 'COLUMN_MISSING'))).toEqual([]);
  });
});
