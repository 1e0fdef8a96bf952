import { describe, expect, test } from 'vitest';
import { changePoints, jumpPenalty } from '../../../dsp/athlete/change-points.ts';
import { trend } from '../../../dsp/athlete/trend.ts';
import { normal } from '../../helpers/random.ts';

describe('changePoints', () => {
  test('a jump costs 3.5 variances times ln n, the variance from the differences of neighbours', () => {
    // Neighbours differ by 1 throughout: variance 1 / 2.
    const values = Array.from({ length: 12 }, (_, i) => i % 2);
    expect(jumpPenalty(values)).toBeCloseTo(3.5 * 0.5 * Math.log(12), 12);
  });

  test('finds one jump where it is, with the level on either side', () => {
    const values = [10, 10.2, 9.8, 10, 10.1, 14, 14.2, 13.8, 14, 13.9];
    expect(changePoints(values)).toEqual([
      { index: 5, before: expect.closeTo(10.02, 9), after: expect.closeTo(13.98, 9) },
    ]);
  });

  test('two good days alone are no level: one holds for three sessions at least', () => {
    expect(changePoints([10, 10.2, 9.8, 14, 14.1])).toEqual([]);
    const [{ index }] = changePoints([10, 10.2, 9.8, 10, 10.1, 14, 14.1]);
    expect(index).toBe(4);
  });

  test('raises hardly any jump in series without one, and sees four standard deviations nearly always', () => {
    const z = normal(77);
    let [alarms, seen] = [0, 0];
    const rounds = 600;
    for (let r = 0; r < rounds; r++) {
      const flat = Array.from({ length: 12 }, z);
      if (changePoints(flat).length > 0) alarms++;
      if (changePoints(flat.map((v, i) => v + (i < 6 ? 0 : 4))).some(({ index }) => index === 6)) seen++;
    }
    expect(alarms / rounds).toBeLessThan(0.07);
    expect(seen / rounds).toBeGreaterThan(0.85);
  });
});

describe('jumps in a trend', () => {
  const sessions = (values: number[]) => values.map((value, i) => ({ value, session: i, day: 3 * i }));

  test('a stair of two steps must earn its second step against the line', () => {
    const noise = [0.1, -0.12, 0.05, -0.08, 0.11, -0.06];
    const stair = [0, 0, 0, 0, 6, 6, 6, 6, 0, 0, 0, 0].map((v, i) => v + noise[i % 6]);
    expect(trend(sessions(stair))!.changes.map(({ at_session }) => at_session)).toEqual([4, 8]);
    const slope = Array.from({ length: 12 }, (_, i) => i + noise[i % 6]);
    expect(trend(sessions(slope))!.changes).toEqual([]);
  });
});
