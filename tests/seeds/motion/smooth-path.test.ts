import { describe, expect, it } from 'vitest';
import { joinedPath, minimumJerkPath } from '../../../seeds/motion/smooth-path.ts';

const rest = (time_s: number, value: number) => ({ time_s, value, rate: 0, acceleration: 0 });

describe('minimumJerkPath', () => {
  it('is the published least-jerk reach between two points at rest', () => {
    // Flash and Hogan 1985, J Neurosci 5:1688-1703 (from memory): x = 10 u^3 - 15 u^4 + 6 u^5; peak speed 1.875 times the mean.
    const path = minimumJerkPath(rest(0, 0), [], rest(2, 3));
    for (const u of [0.1, 0.35, 0.5, 0.9]) {
      expect(path(2 * u).value).toBeCloseTo(3 * (10 * u ** 3 - 15 * u ** 4 + 6 * u ** 5), 10);
    }
    expect(path(1).rate).toBeCloseTo((1.875 * 3) / 2, 10);
  });

  it('passes its points with rate, acceleration and the next two derivatives unbroken', () => {
    const path = minimumJerkPath(
      rest(0, 0),
      [
        { time_s: 0.3, value: 1 },
        { time_s: 0.5, value: 0.5 },
      ],
      rest(1, 1),
    );
    for (const [t, value] of [
      [0.3, 1],
      [0.5, 0.5],
    ]) {
      expect(path(t).value).toBeCloseTo(value, 10);
      const [before, after] = [path(t - 1e-9), path(t + 1e-9)];
      expect(after.rate).toBeCloseTo(before.rate, 5);
      expect(after.acceleration).toBeCloseTo(before.acceleration, 4);
      const third = (from: number, to: number) => (path(to).acceleration - path(from).acceleration) / (to - from);
      // The third derivative jumps by no more than its own slope makes of a step of 2e-5 s.
      expect(third(t, t + 1e-5) / third(t - 1e-5, t)).toBeCloseTo(1, 2);
    }
  });

  it('has less jerk than a path bent away from it', () => {
    const jerk = (path: (t: number) => { acceleration: number }) => {
      let sum = 0;
      for (let i = 0; i < 2000; i++) sum += (path((i + 1) / 2000).acceleration - path(i / 2000).acceleration) ** 2;
      return sum;
    };
    const free = minimumJerkPath(rest(0, 0), [{ time_s: 0.4, value: 0.6 }], rest(1, 1));
    const bent = joinedPath([rest(0, 0), { time_s: 0.4, value: 0.6, rate: 1, acceleration: 0 }, rest(1, 1)]);
    expect(jerk(free)).toBeLessThan(jerk(bent));
  });
});
