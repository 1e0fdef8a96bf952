/** What is done to columns before anything is looked for in them. */
import { describe, expect, it } from 'vitest';
import { designLowPass } from '../../../dsp/filters/design.ts';
import { filterForwardBackward } from '../../../dsp/filters/filter-forward-backward.ts';
import { bridgeClipped } from '../../../dsp/signals/clipped-runs.ts';
import { bridgeShortLosses, clippedSamples, lowPass, thinned } from '../../../dsp/signals/sensor-signals.ts';
import { instantOf, sampleAt } from '../../../dsp/signals/sensor-time.ts';

const { NaN: gap } = Number;
const values = (...x: number[]): Float64Array => Float64Array.from(x);

describe('bridgeShortLosses', () => {
  const bridged = (x: Float64Array, longest: number) => {
    bridgeShortLosses(x, longest);
    return [...x];
  };

  it('fills short runs between two values with a straight line', () => {
    expect(bridged(values(1, gap, gap, 4, gap, 2), 2)).toEqual([1, 2, 3, 4, 3, 2]);
  });

  it('leaves longer runs, and those at either end', () => {
    expect(bridged(values(1, gap, gap, 4), 1)).toEqual([1, gap, gap, 4]);
    expect(bridged(values(gap, 2, gap), 5)).toEqual([gap, 2, gap]);
    expect(bridged(values(gap, gap), 5)).toEqual([gap, gap]);
  });
});

describe('clippedSamples', () => {
  it('marks a sample where any axis reaches the part of the range, on either side', () => {
    const columns = { x: values(0, 9.9, 0, 0), y: values(-10, 0, 0, 9.8), z: values(0, 0, 3, 0) };
    expect([...clippedSamples(columns, 10, 0.99)]).toEqual([1, 1, 0, 0]);
    expect([...clippedSamples(columns, null, 0.99)]).toEqual([0, 0, 0, 0]);
  });
});

describe('thinned', () => {
  it('takes every k-th sample from the first on', () => {
    expect([...thinned(values(0, 1, 2, 3, 4, 5, 6), 3)]).toEqual([0, 3, 6]);
    expect([...thinned(values(0, 1, 2, 3), 2)]).toEqual([0, 2]);
    expect([...thinned(values(5), 4)]).toEqual([5]);
  });
});

describe('lowPass', () => {
  const x = Float64Array.from({ length: 60 }, (_, i) => Math.sin(i / 3) + (i > 30 ? 2 : 0));

  it('is the second-order Butterworth of the filters, forward and backward, on each side of a gap', () => {
    expect([...lowPass(x, 10, 100)]).toEqual([...filterForwardBackward(designLowPass(10, 100, 2), x)]);
    const broken = x.slice();
    broken[20] = gap;
    const out = lowPass(broken, 10, 100);
    expect(out[20]).toBeNaN();
    expect([...out.subarray(21)]).toEqual([...filterForwardBackward(designLowPass(10, 100, 2), x.subarray(21))]);
  });

  it('leaves a signal whose rate carries no more', () => {
    expect(lowPass(x, 45, 100)).toBe(x);
    expect(lowPass(x, 44.9, 100)).not.toBe(x);
  });
});

describe('bridgeClipped', () => {
  const n = 60;
  const full = 100;
  /** A smooth swing that would reach 1.3 times the full scale. */
  const swing = Float64Array.from({ length: n }, (_, i) => 130 * Math.exp(-(((i - 30) / 12) ** 2)));
  const clip = (x: Float64Array) => x.map((v) => Math.max(-full, Math.min(full, v)));
  const zero = new Float64Array(n);
  const marked = (x: Float64Array) => Uint8Array.from(x, (v) => (Math.abs(v) >= full ? 1 : 0));

  it('goes on with the slopes on both sides where a swing ran into the full scale, up or down', () => {
    for (const sign of [1, -1]) {
      const x = clip(swing).map((v) => sign * v);
      const out = bridgeClipped({ x, y: zero, z: zero }, marked(x));
      // Within a few percent of what was lost, and no corner: the second difference stays small.
      expect(sign * out.x[30]).toBeGreaterThan(115);
      for (let i = 1; i < n - 1; i++) {
        expect(Math.abs(out.x[i - 1] - 2 * out.x[i] + out.x[i + 1]), `${i}`).toBeLessThan(3);
      }
      for (const i of [0, 10, 50]) expect(out.x[i]).toBe(x[i]);
      expect([...out.y]).toEqual([...zero]);
    }
  });

  it('leaves a run that a blow ran into, and columns without clipping', () => {
    const blow = Float64Array.from({ length: n }, (_, i) => (i < 20 ? 2 * Math.sin(i) : i < 26 ? full : 3));
    const out = bridgeClipped({ x: blow, y: zero, z: zero }, marked(blow));
    expect([...out.x]).toEqual([...blow]);
    const columns = { x: swing, y: zero, z: zero };
    expect(bridgeClipped(columns, new Uint8Array(n))).toBe(columns);
  });

  it('leaves a run that reaches to the end', () => {
    const rising = Float64Array.from({ length: n }, (_, i) => Math.min(full, 2 * i));
    expect([...bridgeClipped({ x: rising, y: zero, z: zero }, marked(rising)).x]).toEqual([...rising]);
  });
});

describe('samples and instants', () => {
  const grid = {
    recording: { clock_offset_s: 2, clock_drift: 1e-3 },
    signals: { start_s: 0.5, rate_hz: 200 },
  };

  it('go over into each other, offset and drift included', () => {
    // Sample 100 is at 1 s of the sensor's own clock: 2 + 1.001 s.
    expect(instantOf(100, grid)).toBeCloseTo(3.001, 9);
    for (const sample of [-3, 0, 17.25, 1e5]) expect(sampleAt(instantOf(sample, grid), grid)).toBeCloseTo(sample, 6);
  });
});
