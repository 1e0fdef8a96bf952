import { describe, expect, test } from 'vitest';
import { designHighPass, designLowPass, correctedCutoff } from '../../../dsp/filters/design.ts';
import { filterForward, paddingOf } from '../../../dsp/filters/filter-forward-backward.ts';
import { gainAt, halfPowerFrequency } from '../../../dsp/filters/section.ts';
import {
  dominantFrequency,
  fourierTransform,
  hannWindow,
  nextPowerOfTwo,
  powerBandwidth,
  powerDensity,
} from '../../../dsp/filters/spectrum.ts';

const spectrum = (...values: number[]) => ({ step_hz: 2, values: Float64Array.from(values) });

describe('dominantFrequency', () => {
  test('is exact for a peak whose logarithm is a parabola', () => {
    const gauss = Float64Array.from({ length: 40 }, (_, k) => Math.exp(-0.5 * ((k - 17.3) / 2) ** 2));
    expect(dominantFrequency({ step_hz: 0.5, values: gauss }, 1, 15)).toBeCloseTo(8.65, 9);
  });

  test('looks within the band, both ends included, never at zero frequency', () => {
    const found = spectrum(99, 1, 5, 1, 7, 1, 6);
    expect(dominantFrequency(found, 0, 100)).toBe(8);
    expect(dominantFrequency(found, 3, 4)).toBe(4);
    expect(dominantFrequency(found, 4, 7)).toBe(4);
    expect(dominantFrequency(found, 9, 12)).toBe(12);
    expect(dominantFrequency(found, 13, 20)).toBeNaN();
    expect(dominantFrequency(found, 0, 1)).toBeNaN();
  });

  test('never moves by more than half a step, and not at a valley', () => {
    // The greatest within the band is a slope: its neighbour beyond is greater still.
    expect(dominantFrequency(spectrum(1, 1, 2, 8), 0, 4)).toBe(4);
    expect(dominantFrequency(spectrum(1, 7.9, 8, 0.1), 0, 4)).toBeCloseTo(3.5, 0);
  });
});

describe('powerBandwidth', () => {
  test('is the first frequency below which the share lies, the mean left out', () => {
    const found = spectrum(1000, 1, 2, 3, 4);
    expect([0.1, 0.3, 0.31, 0.6, 1].map((share) => powerBandwidth(found, share))).toEqual([2, 4, 6, 6, 8]);
    expect(powerBandwidth(spectrum(5, 0, 0), 0.9)).toBeNaN();
  });
});

describe('powerDensity', () => {
  test('of one segment by hand: a cosine of whole periods under the window', () => {
    // Under a periodic Hann window of n points a cosine of amplitude 2 at bin 4 leaks into bins 3 and 5 only:
    // |X| = n / 2 at the bin and n / 4 beside it; the window's power is 3 n / 8.
    const n = 32;
    const x = Float64Array.from({ length: n }, (_, i) => 5 + 2 * Math.cos((2 * Math.PI * 4 * i) / n));
    const { step_hz, values } = powerDensity(x, 64, { segment: n });
    expect(step_hz).toBe(2);
    const unit = 2 / (64 * ((3 * n) / 8));
    expect(values[4]).toBeCloseTo(unit * (n / 2) ** 2, 9);
    expect(values[3]).toBeCloseTo(unit * (n / 4) ** 2, 9);
    expect(values[5]).toBeCloseTo(unit * (n / 4) ** 2, 9);
    for (const k of [0, 1, 2, 6, 16]) expect(values[k]).toBeCloseTo(0, 9);
    expect(values.length).toBe(17);
  });

  test('is the mean over overlapping segments, and takes a short signal whole', () => {
    const x = Float64Array.from({ length: 48 }, (_, i) => Math.sin(i * i));
    const parts = [0, 8, 16, 24, 32].map((at) => powerDensity(x.slice(at, at + 16), 100, { segment: 16 }).values);
    const whole = powerDensity(x, 100, { segment: 16 }).values;
    whole.forEach((value, k) => {
      expect(value).toBeCloseTo(parts.reduce((sum, part) => sum + part[k], 0) / 5, 12);
    });
    const apart = powerDensity(x, 100, { segment: 16, overlap: 0 }).values;
    const three = [0, 2, 4].map((p) => parts[p]);
    apart.forEach((value, k) => {
      expect(value).toBeCloseTo(three.reduce((sum, part) => sum + part[k], 0) / 3, 12);
    });
    expect(powerDensity(x.slice(0, 10), 100).values.length).toBe(9);
    expect(
      powerDensity(
        Float64Array.from({ length: 600 }, (_, i) => Math.sin(i)),
        100,
      ).values.length,
    ).toBe(129);
  });

  test('counts the two ends of the spectrum once', () => {
    // Alternating signs: all power at half the rate.
    const x = Float64Array.from({ length: 16 }, (_, i) => (i % 2 ? -1 : 1));
    const { values } = powerDensity(x, 16, { segment: 16 });
    expect(values[8]).toBeCloseTo(8 ** 2 / (16 * 6), 9);
    expect(values[7]).toBeCloseTo((2 * 4 ** 2) / (16 * 6), 9);
  });
});

describe('transforms', () => {
  test('are padded to a power of two, and their mirror is complex conjugate', () => {
    const { re, im } = fourierTransform([1, 2, 4]);
    expect(re.length).toBe(4);
    expect([re[0], re[2]]).toEqual([7, 3]);
    expect([re[1], im[1], re[3], im[3]]).toEqual([-3, -2, -3, 2]);
    expect(fourierTransform([3]).re.length).toBe(2);
    expect([...fourierTransform([1, 1], 8).re].map((v) => Math.round(v * 1e6) / 1e6)[4]).toBe(0);
  });

  test('windows and powers of two by hand', () => {
    expect([...hannWindow(4)].map((v) => Math.round(v * 1e12) / 1e12)).toEqual([0, 0.5, 1, 0.5]);
    expect([...hannWindow(1)]).toEqual([1]);
    expect([1, 2, 3, 4, 5, 1000].map(nextPowerOfTwo)).toEqual([2, 2, 4, 4, 8, 1024]);
  });
});

describe('sections', () => {
  test('gains are those of a Butterworth: closed form on the pre-warped frequency', () => {
    const warp = (f: number, rate: number) => Math.tan((Math.PI * f) / rate);
    for (const order of [2, 4, 6]) {
      const low = designLowPass(30, 400, order);
      const high = designHighPass(30, 400, order);
      for (const f of [1, 20, 30, 77, 150]) {
        const ratio = (warp(f, 400) / warp(30, 400)) ** (2 * order);
        expect(gainAt(low, f, 400)).toBeCloseTo(1 / Math.sqrt(1 + ratio), 9);
        expect(gainAt(high, f, 400)).toBeCloseTo(1 / Math.sqrt(1 + 1 / ratio), 9);
      }
      expect(low.length).toBe(order / 2);
    }
  });

  test('halfPowerFrequency of one pass is the cut-off, of two passes where the gain is the fourth root of a half', () => {
    for (const design of [designLowPass, designHighPass]) {
      const sections = design(30, 400, 4);
      expect(halfPowerFrequency(sections, 400, 1)).toBeCloseTo(30, 9);
      expect(gainAt(sections, halfPowerFrequency(sections, 400), 400)).toBeCloseTo(0.5 ** 0.25, 9);
    }
  });

  test('correctedCutoff moves a low-pass up and a high-pass down, so that both passes together are at -3 dB', () => {
    for (const [kind, design] of [
      ['low-pass', designLowPass],
      ['high-pass', designHighPass],
    ] as const) {
      for (const passes of [1, 2, 3]) {
        const sections = design(correctedCutoff(30, 400, 4, passes, kind), 400, 4);
        expect(gainAt(sections, 30, 400) ** passes).toBeCloseTo(Math.SQRT1_2, 9);
      }
    }
  });

  test('padding is three times the taps, and a causal pass delays', () => {
    expect([paddingOf(designLowPass(5, 100, 2)), paddingOf(designLowPass(5, 100, 6))]).toEqual([9, 21]);
    const step = Float64Array.from({ length: 80 }, (_, i) => (i < 40 ? 0 : 1));
    const out = filterForward(designLowPass(5, 100, 2), step);
    expect([...out.subarray(0, 40)].every((v) => v === 0)).toBe(true);
    expect(out[40]).toBeGreaterThan(0);
    expect(out[42]).toBeLessThan(0.5);
    expect(out[79]).toBeCloseTo(1, 2);
  });
});
