import { describe, expect, test } from 'vitest';
import { toUniformGrid } from '../../../dsp/filters/resample.ts';
import { uniform } from '../../helpers/random.ts';

const stamps = (n: number, rate: number, jitter_s: number): Float64Array => {
  const next = uniform(3);
  return Float64Array.from({ length: n }, (_, i) => i / rate + (i === 0 ? 0 : (next() - 0.5) * 2 * jitter_s));
};

describe('toUniformGrid', () => {
  test('copies a recording that is uniform already, to the bit', () => {
    const time = Float64Array.from({ length: 1000 }, (_, i) => i / 300);
    const x = time.map((t) => Math.sin(40 * t));
    const grid = toUniformGrid(time, [x], 300);
    expect(grid.columns[0]).toEqual(x);
    expect(grid.measured.every((m) => m === 1)).toBe(true);
  });

  test('follows a 20 Hz sine through 1 ms of jitter at 200 Hz within 1 %', () => {
    const time = stamps(400, 200, 0.001);
    const x = time.map((t) => Math.sin(2 * Math.PI * 20 * t));
    const grid = toUniformGrid(time, [x], 200);
    for (let i = 2; i < grid.length - 2; i++) {
      const t = grid.start_s + i / 200;
      expect(Math.abs(grid.columns[0][i] - Math.sin(2 * Math.PI * 20 * t))).toBeLessThan(0.02);
    }
  });

  test('never interpolates across a listed or an unlisted gap', () => {
    const all = stamps(300, 100, 0);
    const time = all.filter((_, i) => i < 100 || (i >= 120 && i !== 200));
    const grid = toUniformGrid(time, [time.slice()], 100, [{ start_s: 1.99, end_s: 2.01, lost_samples: 1 }]);
    expect(grid.measured[99]).toBe(1);
    for (let i = 100; i < 120; i++) {
      expect(grid.measured[i]).toBe(0);
      expect(grid.columns[0][i]).toBeNaN();
    }
    expect(grid.measured[120]).toBe(1);
    expect(grid.measured[200]).toBe(0);
    expect(grid.columns[0][250]).toBeCloseTo(2.5, 9);
  });

  test('bridges a single late sample that nobody called a gap', () => {
    const time = Float64Array.from([0, 0.01, 0.02, 0.04, 0.05, 0.06]);
    const grid = toUniformGrid(time, [time.map((t) => 3 * t)], 100);
    expect(grid.columns[0][3]).toBeCloseTo(0.09, 9);
  });

  test('takes no samples and one sample', () => {
    expect(toUniformGrid(new Float64Array(0), [new Float64Array(0)], 100).length).toBe(0);
    const one = toUniformGrid(Float64Array.of(0.5), [Float64Array.of(7)], 100);
    expect([one.length, one.start_s, one.columns[0][0]]).toEqual([1, 0.5, 7]);
  });
});
