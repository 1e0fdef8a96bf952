import { describe, expect, it } from 'vitest';
import { impactOnset, standout } from '../../../dsp/events/impact-onset.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';

/** Quiet swing, then a change of acceleration that rises in a straight line from sample `start` to `start + rise`. */
function blow(start: number, rise: number, height = 1000, quiet = 10): Float64Array {
  return Float64Array.from({ length: 300 }, (_, i) => {
    const part = (i - start) / rise;
    if (part <= 0) return quiet;
    return part <= 1 ? quiet + part * (height - quiet) : quiet + (height - quiet) * Math.exp(-(part - 1));
  });
}

describe('impactOnset', () => {
  it('lies where the change reaches a fifth of its first strong value, between samples', () => {
    const onset = impactOnset(blow(100.4, 8), 40, 80, 140)!;
    // On a line from 10 at 100.4 to about 990 at 108: a fifth of it is reached 1.5 samples after the start.
    expect(onset.at).toBeGreaterThan(100.4);
    expect(onset.at).toBeLessThan(102.5);
  });

  it('takes the first blow, not a stronger one behind it', () => {
    const first = blow(100, 4);
    const second = blow(130, 4, 2000);
    const both = first.map((value, i) => Math.max(value, second[i]));
    expect(impactOnset(both, 40, 80, 160)!.at).toBeCloseTo(impactOnset(first, 40, 80, 120)!.at, 6);
  });

  it('does not depend on the scale of acceleration and moves with the blow', () => {
    const base = impactOnset(blow(100.4, 6), 40, 80, 140)!;
    const louder = impactOnset(
      blow(100.4, 6).map((value) => 7 * value),
      40,
      80,
      140,
    )!;
    const later = impactOnset(blow(117.4, 6), 57, 97, 157)!;
    expect(louder.at).toBeCloseTo(base.at, 9);
    expect(louder.contrast).toBeCloseTo(base.contrast, 9);
    expect(later.at).toBeCloseTo(base.at + 17, 9);
  });

  it('is null when the window holds no swing before the blow', () => {
    expect(impactOnset(blow(1, 3), 6, 8, 40)).toBeNull();
  });

  it('standout tells a blow of 3 ms at 1000 Hz from one smeared to 25 ms', () => {
    const sharp = impactOnset(blow(100, 3), 40, 80, 160);
    const smeared = impactOnset(blow(100, 25, 60), 40, 80, 160);
    expect(standout(sharp, 1000, DEFAULT_SETTINGS)).toBe(1);
    expect(standout(smeared, 1000, DEFAULT_SETTINGS)).toBe(0);
    expect(standout(null, 1000, DEFAULT_SETTINGS)).toBe(0);
  });
});
