import { describe, expect, it } from 'vitest';
import { fuse } from '../../../dsp/numeric/fuse.ts';

describe('fuse', () => {
  it('of two agreeing estimates is the mean weighted by inverse variance', () => {
    const { at } = fuse([
      { name: 'a', at: 10, sd: 1 },
      { name: 'b', at: 11, sd: 2 },
    ])!;
    // (10 / 1 + 11 / 4) / (1 / 1 + 1 / 4) = 10.2: closed form.
    expect(at).toBeCloseTo(10.2, 12);
  });

  it('follows the two that agree when a third is far off, and says that they disagree', () => {
    const fused = fuse([
      { name: 'a', at: 10, sd: 1 },
      { name: 'b', at: 10.4, sd: 1 },
      { name: 'c', at: 40, sd: 1 },
    ])!;
    expect(fused.at).toBeLessThan(12);
    expect(fused.disagreement).toBeGreaterThan(5);
    expect(fused.u).toBeGreaterThan(5);
  });

  it('never states less than the best estimate over root 2: the features share noise', () => {
    const many = Array.from({ length: 20 }, (_, i) => ({ name: `${i}`, at: 3, sd: 2 }));
    expect(fuse(many)!.u).toBeCloseTo(Math.SQRT2, 12);
  });

  it('moves with its estimates and scales with them', () => {
    const estimates = [
      { name: 'a', at: 1, sd: 0.5 },
      { name: 'b', at: 2, sd: 0.8 },
      { name: 'c', at: 5, sd: 0.6 },
    ];
    const base = fuse(estimates)!;
    const moved = fuse(estimates.map((e) => ({ ...e, at: 100 + e.at })))!;
    const scaled = fuse(estimates.map((e) => ({ ...e, at: 3 * e.at, sd: 3 * e.sd })))!;
    expect(moved.at).toBeCloseTo(100 + base.at, 9);
    expect(scaled.at).toBeCloseTo(3 * base.at, 9);
    expect(scaled.u).toBeCloseTo(3 * base.u, 9);
  });

  it('is null of no estimates', () => {
    expect(fuse([])).toBeNull();
  });

  it('of one estimate is that estimate, and as uncertain', () => {
    expect(fuse([{ name: 'a', at: 4, sd: 0.3 }])).toEqual({ at: 4, u: 0.3, disagreement: 0 });
  });

  it('states how far its estimates lie from it, and widens by the Birge ratio', () => {
    const { u, disagreement, at } = fuse(
      [
        { name: 'a', at: 0, sd: 1 },
        { name: 'b', at: 6, sd: 1 },
      ],
      100,
    )!;
    expect(at).toBeCloseTo(3, 12);
    // Each three standard deviations off: chi-square 18, of one degree of freedom; weights of 1 each.
    expect(disagreement).toBeCloseTo(3, 12);
    expect(u).toBeCloseTo(Math.sqrt(18) / Math.SQRT2, 12);
  });

  it('is the weighted median where the threshold is near zero', () => {
    const { at } = fuse(
      [
        { name: 'a', at: 0, sd: 1 },
        { name: 'b', at: 1, sd: 1 },
        { name: 'c', at: 9, sd: 1 },
      ],
      0.01,
    )!;
    expect(at).toBeCloseTo(1, 1);
  });

  it('is where pulls, bounded at the threshold, are in balance', () => {
    const estimates = [
      { name: 'a', at: 0, sd: 1 },
      { name: 'b', at: 1, sd: 0.5 },
      { name: 'c', at: 10, sd: 2 },
    ];
    for (const threshold of [0.5, 1.345, 2]) {
      const { at } = fuse(estimates, threshold)!;
      const pulls = estimates.map((e) => Math.max(-threshold, Math.min(threshold, (e.at - at) / e.sd)) / e.sd);
      expect(pulls.reduce((a, b) => a + b, 0)).toBeCloseTo(0, 4);
    }
  });

  it('takes the best estimate for the least that it states', () => {
    const many = Array.from({ length: 20 }, (_, i) => ({ name: `${i}`, at: 3, sd: 2 }));
    expect(fuse([...many, { name: 'poor', at: 3, sd: 30 }])!.u).toBeCloseTo(Math.SQRT2, 12);
  });
});
