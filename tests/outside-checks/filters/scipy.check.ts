import { describe, expect, test } from 'vitest';
import { designHighPass, designLowPass } from '../../../dsp/filters/design.ts';
import { filterForwardBackward, paddingOf } from '../../../dsp/filters/filter-forward-backward.ts';
import type { Section } from '../../../dsp/filters/section.ts';
import { fourierTransform, powerDensity } from '../../../dsp/filters/spectrum.ts';
import { expectColumnsClose } from '../../helpers/close.ts';
import { normal } from '../../helpers/random.ts';
import { pythonWithScipy, runScipy } from '../../helpers/scipy.ts';

/** A signal at rest at gravity, then steps, noise and a ramp: what upset filters without initial conditions. */
function signal(length: number): number[] {
  const noise = normal(7);
  return Array.from({ length }, (_, i) => 9.81 + (i > length / 3 ? 40 : 0) + 0.01 * i + 3 * noise());
}

function largestDifference(a: ArrayLike<number>, b: ArrayLike<number>): number {
  expect(a.length).toBe(b.length);
  let largest = 0;
  for (let i = 0; i < a.length; i++) largest = Math.max(largest, Math.abs(a[i] - b[i]));
  return largest;
}

const CASES = [
  { kind: 'low', cutoff: 20, rate: 1000, order: 2 },
  { kind: 'low', cutoff: 60, rate: 1000, order: 4 },
  { kind: 'low', cutoff: 40, rate: 100.7, order: 6 },
  { kind: 'low', cutoff: 1, rate: 1000, order: 4 },
  { kind: 'high', cutoff: 0.5, rate: 200, order: 2 },
  { kind: 'high', cutoff: 15, rate: 500, order: 8 },
] as const;

describe.skipIf(pythonWithScipy() === null)('against SciPy (skipped where no Python with SciPy is found)', () => {
  test.each(CASES)('design and zero-phase filtering agree: $kind-pass $cutoff Hz of $rate, order $order', (c) => {
    const x = signal(1500);
    const reference = runScipy<{ poles: number[][]; y: number[] }>(
      `c, x = inputs['c'], np.array(inputs['x'])
sos = scipy.signal.butter(c['order'], c['cutoff'], c['kind'], fs=c['rate'], output='sos')
# One section at a time, by falling damping: the order of fili's sections.
result = {'poles': sorted([[s[4], s[5]] for s in sos.tolist()]), 'y': scipy.signal.sosfiltfilt(sos, x)}`,
      { c, x },
    );
    const design = c.kind === 'low' ? designLowPass : designHighPass;
    const sections: Section[] = design(c.cutoff, c.rate, c.order);
    const poles = sections.map((s) => [s.a1, s.a2]).sort((p, q) => p[0] - q[0] || p[1] - q[1]);
    poles.forEach(([a1, a2], i) => {
      expect(a1).toBeCloseTo(reference.poles[i][0], 10);
      expect(a2).toBeCloseTo(reference.poles[i][1], 10);
    });
    // 49 is the signal's size; a cut-off of a thousandth of the rate loses digits in SciPy's and our coefficients
    // alike.
    expect(largestDifference(filterForwardBackward(sections, x), reference.y)).toBeLessThan(
      c.cutoff / c.rate < 0.01 ? 1e-6 : 1e-9,
    );
  });

  test('a signal just longer than the padding is filtered as SciPy does', () => {
    const sections = designLowPass(60, 1000, 4);
    const x = signal(paddingOf(sections) + 1);
    const reference = runScipy<number[]>(
      `result = scipy.signal.sosfiltfilt(scipy.signal.butter(4, 60, fs=1000, output='sos'), inputs)`,
      x,
    );
    expect(largestDifference(filterForwardBackward(sections, x), reference)).toBeLessThan(1e-10);
  });

  test('the Fourier transform agrees with numpy', () => {
    const x = signal(1000);
    const reference = runScipy<{ re: number[]; im: number[] }>(
      `X = np.fft.fft(inputs, 1024)
result = {'re': X.real, 'im': X.imag}`,
      x,
    );
    const { re, im } = fourierTransform(x);
    expect(largestDifference(re, reference.re)).toBeLessThan(1e-9);
    expect(largestDifference(im, reference.im)).toBeLessThan(1e-9);
  });

  test.each([
    { segment: 256, overlap: 0.5 },
    { segment: 300, overlap: 0.25 },
  ])("the power density agrees with SciPy's welch ($segment samples, overlap $overlap)", (options) => {
    const x = signal(3000);
    const reference = runScipy<number[]>(
      `n = inputs['segment']
result = scipy.signal.welch(inputs['x'], 500, 'hann', n, int(n * inputs['overlap']), 512 if n > 256 else 256)[1]`,
      { x, ...options },
    );
    const { values } = powerDensity(x, 500, options);
    const ratios = values.map((value, k) => value / reference[k]);
    expectColumnsClose(ratios, new Array(reference.length).fill(1), 8);
  });
});
