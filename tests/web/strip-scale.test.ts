import { describe, expect, test } from 'vitest';
import { stripScale } from '../../web/parts/plot/strip-scale.ts';

const texts = (values: number[], factor = 1) => stripScale(values, factor).ticks.map((tick) => tick.text);
const places = (values: number[]) => stripScale(values, 1).ticks.map((tick) => Number.parseFloat(tick.at));

describe('the scale of a strip', () => {
  test.each([
    ['milliseconds', [97, 112], 1],
    ['steps per second', [4.21, 4.48], 1],
    ['metres as yards', [36.576, 37], 1 / 0.9144],
    ['one value alone', [107], 1],
    ['a difference round zero', [-3.5, 2], 1],
  ])('%s: ends enclose all that is drawn, with a word at each end', (_, values, factor) => {
    const { ticks, at } = stripScale(values, factor);
    expect(ticks[0].at).toBe('0.00%');
    expect(ticks.at(-1)!.at).toBe('100.00%');
    for (const value of values) {
      expect(Number.parseFloat(at(value))).toBeGreaterThanOrEqual(0);
      expect(Number.parseFloat(at(value))).toBeLessThanOrEqual(100);
    }
    expect(new Set(ticks.map((tick) => tick.text)).size).toBe(ticks.length);
  });

  test('words between the ends keep away from them', () => {
    for (const values of [
      [97, 112],
      [4.21, 4.48],
      [8.4, 9.3],
      [95.2, 109.9],
      [0.01, 0.02],
    ]) {
      for (const place of places(values).slice(1, -1)) {
        expect(place).toBeGreaterThan(20);
        expect(place).toBeLessThan(64);
      }
    }
  });

  test('a value stands where its tick stands', () => {
    const { at, ticks } = stripScale([100, 110], 1);
    for (const tick of ticks) expect(at(Number(tick.text))).toBe(tick.at);
  });

  test('ends are round values', () => {
    expect(texts([97.3, 112.4])).toContain('100');
    expect(texts([97.3, 112.4]).every((text) => Number(text) % 5 === 0)).toBe(true);
  });
});
