import { describe, expect, it } from 'vitest';
import { landingAnchor } from '../../../dsp/learned/landing-anchor.ts';

const RATE_HZ = 500;
const STRIDE_S = 0.7;
/** A burst of change of acceleration about a landing at 0.3 s. */
const BURST_S = 0.3;
const change = Float64Array.from({ length: 350 }, (_, i) => Math.exp(-(((i / RATE_HZ - BURST_S) / 0.006) ** 2)));
const shapeOf = (column: Float64Array) => ({
  rate_hz: RATE_HZ,
  start_s: 10,
  stride_s: STRIDE_S,
  columns: [new Float64Array(350), column],
  factors: [1, 1],
});

describe('what a shape is read about', () => {
  it('moves by half of what the first stage is moved by, while the burst stays within reach', () => {
    const at = (touchdown_s: number): number => landingAnchor(shapeOf(change), touchdown_s);
    expect(at(10.31) - at(10.29)).toBeCloseTo(0.01, 4);
    // By the shares of its energy the burst lies a little before its middle.
    expect(2 * at(10.3) - 10.3).toBeGreaterThan(10.29);
    expect(2 * at(10.3) - 10.3).toBeLessThan(10.3);
  });

  it('is the first stage alone where nothing changes', () => {
    expect(landingAnchor(shapeOf(new Float64Array(350)), 10.3)).toBe(10.3);
  });
});
