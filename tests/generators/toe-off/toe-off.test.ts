/** Both generators leave the ground as people do over force plates; measured by code of this folder's own. */
import { describe, expect, it } from 'vitest';
import { firstGenerator, meanAndSd, meansOf, secondGenerator } from './populations.ts';
import { BY_CUTOFF, outside, PUBLISHED } from './published.ts';

const RUNNERS = 8;
const GENERATORS = [
  ['first', firstGenerator],
  ['second', secondGenerator],
] as const;

describe.each(GENERATORS)('the %s generator', (_, generator) => {
  for (const published of PUBLISHED) {
    it(`leaves the ground as published, ${published.title}: means in range, runners apart`, () => {
      const runners = generator(published.speed_mps, RUNNERS);
      expect(outside(published, meansOf(runners))).toEqual([]);
      // People differ: no feature stands at one lag for everybody.
      const sd = (values: number[]) => meanAndSd(values).sd;
      expect(sd(runners.map(({ foot_peak_ms }) => foot_peak_ms))).toBeGreaterThan(0.7);
      expect(sd(runners.map(({ fold_begins_ms }) => fold_begins_ms))).toBeGreaterThan(0.7);
      expect(sd(runners.map(({ foot_ratio }) => foot_ratio))).toBeGreaterThan(0.015);
      // Nor does anybody's fold begin where nobody's was seen to, 4 +- 9 ms before toe-off being the widest.
      for (const { fold_begins_ms } of runners) expect(Math.abs(fold_begins_ms + 4)).toBeLessThan(18);
    });
  }

  it.each(BY_CUTOFF.hz.map((hz, i) => [hz, i]))(
    'moves with the cut-off of a low-pass as published: %d Hz, foot within 3 ms, fold within 2',
    (hz, i) => {
      const mean = meansOf(generator(9.5, 5, hz));
      expect(Math.abs(mean.foot_peak_ms - BY_CUTOFF.foot_peak_ms[i])).toBeLessThan(3);
      expect(Math.abs(mean.fold_begins_ms - BY_CUTOFF.fold_begins_ms[i])).toBeLessThan(2);
    },
  );

  it('has two humps of the foot’s rate in one runner of six at 3.5 m/s (of 24: one to nine), in none of a sprint', () => {
    const two = generator(3.5, 24).filter(({ two_humps }) => two_humps).length;
    expect(two).toBeGreaterThanOrEqual(1);
    expect(two).toBeLessThanOrEqual(9);
    expect(generator(9.5, RUNNERS).filter(({ two_humps }) => two_humps).length).toBe(0);
  });
});

describe('the ranges', () => {
  /** What the generators made before they were set beside these values: means of eight runners, measured by this code. */
  const BEFORE = {
    first: {
      foot_peak_ms: -5.2,
      foot_ratio: 0.98,
      lean_slowest_ms: -3.8,
      lean_slowest_radps: 1.7,
      fold_begins_ms: 6.6,
      fold_steepest_ms: 23.2,
    },
    second: {
      foot_peak_ms: -5.1,
      foot_ratio: 0.97,
      lean_slowest_ms: -32.5,
      lean_slowest_radps: 5.6,
      fold_begins_ms: -30.7,
      fold_steepest_ms: -23.9,
    },
  };

  it('refuse what both generators made at 9.5 m/s before', () => {
    const sprint = PUBLISHED[PUBLISHED.length - 1];
    expect(outside(sprint, BEFORE.first).length).toBe(5);
    expect(outside(sprint, BEFORE.second).length).toBe(6);
  });
});
