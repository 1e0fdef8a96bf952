import { refusalOf } from '../../helpers/told.ts';
import { describe, expect, test } from 'vitest';
import { derivative } from '../../../dsp/filters/derivative.ts';
import { designHighPass, designLowPass } from '../../../dsp/filters/design.ts';
import { filterForwardBackward } from '../../../dsp/filters/filter-forward-backward.ts';
import { filterSegments } from '../../../dsp/filters/filter-segments.ts';
import { dominantFrequency, fourierTransform, powerBandwidth, powerDensity } from '../../../dsp/filters/spectrum.ts';
import { FaultError } from '../../../shared/fault.ts';
import { expectColumnsClose } from '../../helpers/close.ts';

const sine = (n: number, frequency: number, rate: number): Float64Array =>
  Float64Array.from({ length: n }, (_, i) => Math.sin((2 * Math.PI * frequency * i) / rate));

describe('filterForwardBackward', () => {
  test('leaves a signal at rest at rest, from the first sample to the last', () => {
    const y = filterForwardBackward(designLowPass(20, 1000, 4), new Float64Array(50).fill(9.81));
    expectColumnsClose(y, new Array(50).fill(9.81), 10);
  });

  test('does not move an instant: the filtered signal mirrored is the mirrored signal filtered', () => {
    const x = sine(301, 3, 200).map((v, i) => v + (i > 150 ? 1 : 0));
    const sections = designLowPass(15, 200, 4);
    const mirrored = filterForwardBackward(sections, x.slice().reverse()).reverse();
    // Only the edges' transients differ between the two orders of passes.
    expectColumnsClose(filterForwardBackward(sections, x).slice(60, 240), mirrored.slice(60, 240), 6);
  });

  test('is linear and blocks what it must block', () => {
    const high = designHighPass(10, 500, 4);
    const y = filterForwardBackward(high, new Float64Array(400).fill(3));
    expect(Math.max(...y.map(Math.abs))).toBeLessThan(1e-9);
  });

  test('filters one sample, and nothing at all, without failing', () => {
    expect([...filterForwardBackward(designLowPass(20, 1000), [4])][0]).toBeCloseTo(4, 12);
    expect(filterForwardBackward(designLowPass(20, 1000), []).length).toBe(0);
  });

  test('does not change its input and keeps nothing between calls', () => {
    const x = sine(100, 5, 100);
    const before = x.slice();
    const sections = designLowPass(10, 100);
    const first = filterForwardBackward(sections, x);
    expect(filterForwardBackward(sections, x)).toEqual(first);
    expect(x).toEqual(before);
  });

  test('refuses a missing sample and says which', () => {
    expect(refusalOf(() => filterForwardBackward(designLowPass(20, 1000), [1, 2, Number.NaN]))).toMatch(
      /sample 2 is NaN/,
    );
  });
});

describe('filterSegments', () => {
  test('filters each side of a gap as if it stood alone', () => {
    const sections = designLowPass(10, 100);
    const x = sine(120, 2, 100);
    x.fill(Number.NaN, 50, 60);
    const y = filterSegments(sections, x);
    expect(y.slice(0, 50)).toEqual(filterForwardBackward(sections, x.slice(0, 50)));
    expect(y.slice(60)).toEqual(filterForwardBackward(sections, x.slice(60)));
    expect(y.slice(50, 60).every(Number.isNaN)).toBe(true);
  });

  test('leaves out stretches that are too short to say anything', () => {
    const x = Float64Array.from([Number.NaN, 1, 1, Number.NaN, 1, 1, 1, 1, 1]);
    const y = filterSegments(designLowPass(10, 100), x, 3);
    expect([...y].map(Number.isFinite)).toEqual([false, false, false, false, true, true, true, true, true]);
  });
});

describe('filter design', () => {
  test.each([
    [0, 100, 2],
    [50, 100, 2],
    [-1, 100, 2],
    [Number.NaN, 100, 2],
    [10, 0, 2],
    [10, 100, 3],
    [10, 100, 0],
    [10, 100, 26],
  ])('refuses cut-off %d Hz of %d, order %d', (cutoff, rate, order) => {
    expect(() => designLowPass(cutoff, rate, order)).toThrow(FaultError);
    expect(() => designHighPass(cutoff, rate, order)).toThrow(FaultError);
  });
});

describe('derivative', () => {
  test('is exact for parabolas, also at the ends and beside a gap', () => {
    const x = Float64Array.from({ length: 12 }, (_, i) => 3 + 2 * (i / 10) - 5 * (i / 10) ** 2);
    x[5] = Number.NaN;
    const y = derivative(x, 10);
    for (let i = 0; i < 12; i++) {
      if (i === 5) expect(y[i]).toBeNaN();
      else expect(y[i]).toBeCloseTo(2 - i, 10);
    }
  });
});

describe('spectra', () => {
  test('obey Parseval', () => {
    // 1, 2, 3, 4 -> 10, -2 + 2i, -2, -2 - 2i: textbook example.
    const { re, im } = fourierTransform([1, 2, 3, 4]);
    expectColumnsClose(re, [10, -2, -2, -2], 12);
    expectColumnsClose(im, [0, 2, 0, -2], 12);
  });

  test('refuse empty and broken input and lengths that fft.js would turn into NaN', () => {
    expect(() => fourierTransform([])).toThrow(FaultError);
    expect(() => fourierTransform([1, Number.NaN])).toThrow(/sample 1/);
    expect(() => fourierTransform([1, 2, 3], 3)).toThrow(FaultError);
    expect(() => fourierTransform([1, 2, 3], 2)).toThrow(FaultError);
  });

  test('integrate to the variance and find the frequency', () => {
    const spectrum = powerDensity(sine(5000, 13.3, 500), 500, { segment: 1024 });
    const power = spectrum.values.reduce((sum, v) => sum + v * spectrum.step_hz, 0);
    expect(power).toBeCloseTo(0.5, 2);
    expect(dominantFrequency(spectrum, 1, 100)).toBeCloseTo(13.3, 1);
    expect(powerBandwidth(spectrum, 0.99)).toBeLessThan(15);
  });
});
