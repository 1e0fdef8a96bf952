import FFT from 'fft.js';
import { FaultError, fault } from '../../shared/fault.ts';

/** One-sided spectrum on an even frequency axis. */
export interface Spectrum {
  /** Frequency of entry k is k * step_hz. */
  step_hz: number;
  /** Amplitudes or power density, see the function that made it. */
  values: Float64Array;
}

/** Real and imaginary part of a discrete Fourier transform. */
export interface ComplexColumns {
  re: Float64Array;
  im: Float64Array;
}

/**
 * Discrete Fourier transform of a real signal, X[k] = sum x[n] exp(-2 pi i k n / N), without scaling, so that
 * sum |x|^2 = (1/N) sum |X|^2 (Parseval).
 * @param x finite samples, at least 1; padded with zeros to a power of two of at least 2, which fft.js needs (given
 *   less it silently returns NaN)
 * @param length transform length, a power of two of at least x.length; by default the next one
 * @returns all `length` values, k = 0 to length - 1
 * @throws FaultError SPECTRUM_INPUT_INVALID
 */
export function fourierTransform(x: ArrayLike<number>, length: number = nextPowerOfTwo(x.length)): ComplexColumns {
  if (x.length < 1 || length < Math.max(2, x.length) || nextPowerOfTwo(length) !== length) {
    throw invalid(
      `${x.length} samples for a transform of ${length}`,
      'at least 1 sample and a power of two not below it',
    );
  }
  const { fft, values, spectrum } = transformOf(length);
  values.fill(0);
  for (let i = 0; i < x.length; i++) {
    if (!Number.isFinite(x[i])) throw invalid(`sample ${i} is ${x[i]}`, 'every sample a finite number');
    values[2 * i] = x[i];
  }
  fft.transform(spectrum, values);
  const re = new Float64Array(length);
  const im = new Float64Array(length);
  for (let k = 0; k < length; k++) {
    re[k] = spectrum[2 * k];
    im[k] = spectrum[2 * k + 1];
  }
  return { re, im };
}

/** Tables of one length, and room for complex numbers (real and imaginary part in turn) before and after. */
interface Transform {
  fft: FFT;
  values: Float64Array;
  spectrum: Float64Array;
}

/** Longer ones are made anew each time rather than kept. */
const LONGEST_KEPT = 1 << 14;
const kept = new Map<number, Transform>();

function transformOf(length: number): Transform {
  const known = kept.get(length);
  if (known) return known;
  const made = {
    fft: new FFT(length),
    values: new Float64Array(2 * length),
    spectrum: new Float64Array(2 * length),
  };
  if (length <= LONGEST_KEPT) kept.set(length, made);
  return made;
}

export interface WelchOptions {
  /** Samples of one segment; by default 256, or the signal's length where it is shorter. */
  segment?: number;
  /** Share of a segment that the next one repeats, 0 to below 1; default 0.5. */
  overlap?: number;
}

/**
 * Power spectral density by Welch's method: mean of the periodograms of overlapping, mean-free, Hann-windowed segments,
 * scaled so that the integral over frequency is the variance. Segments are padded with zeros to a power of two. The
 * same definition as SciPy's `welch` with `window='hann'`, `detrend='constant'`, `scaling='density'`.
 * Source: Welch 1967, IEEE Trans Audio Electroacoust 15:70-73.
 * @param x finite samples
 * @param rate_hz samples a second
 * @returns density in (unit of x)^2 / Hz, 0 to rate_hz / 2
 * @throws FaultError INVALID_ARGUMENT for a segment that does not fit the signal, or a sample that is not finite
 */
export function powerDensity(x: ArrayLike<number>, rate_hz: number, options: WelchOptions = {}): Spectrum {
  const segment = Math.min(options.segment ?? 256, x.length);
  if (!(segment >= 1)) throw invalid(`segments of ${segment} samples`, 'at least 1 sample');
  const hop = Math.max(1, segment - Math.floor(segment * (options.overlap ?? 0.5)));
  const length = nextPowerOfTwo(segment);
  const window = hannWindow(segment);
  const windowPower = window.reduce((sum, w) => sum + w * w, 0);
  const power = new Float64Array(length);
  const { fft, values: pair, spectrum } = transformOf(length);
  pair.fill(0);
  const segments = Math.floor((x.length - segment) / hop) + 1;
  for (let s = 0; s < segments; s += 2) {
    // Two real segments go through one complex transform, as its real and imaginary part: |A[k]|^2 + |B[k]|^2 is half of
    // |Z[k]|^2 + |Z[N - k]|^2.
    if (s + 1 < segments) windowTwo(pair, x, s * hop, (s + 1) * hop, window);
    else windowLast(pair, x, s * hop, window);
    fft.transform(spectrum, pair);
    for (let k = 0; k < length; k++) power[k] += spectrum[2 * k] ** 2 + spectrum[2 * k + 1] ** 2;
  }
  refuseNotFinite(power, x);
  const values = new Float64Array(length / 2 + 1);
  for (let k = 0; k < values.length; k++) {
    const both = (power[k] + power[(length - k) % length]) / 2;
    // The other half of the spectrum mirrors this one, but for the two ends.
    const sides = k === 0 || k === length / 2 ? 1 : 2;
    values[k] = (both * sides) / (rate_hz * windowPower * segments);
  }
  return { step_hz: rate_hz / length, values };
}

/** Two segments, free of their means and windowed, side by side: two sums at a time wait half as long for each other. */
function windowTwo(
  pair: Float64Array,
  x: ArrayLike<number>,
  first: number,
  second: number,
  window: Float64Array,
): void {
  const n = window.length;
  let [one, other] = [0, 0];
  for (let i = 0; i < n; i++) {
    one += x[first + i];
    other += x[second + i];
  }
  one /= n;
  other /= n;
  for (let i = 0; i < n; i++) {
    pair[2 * i] = (x[first + i] - one) * window[i];
    pair[2 * i + 1] = (x[second + i] - other) * window[i];
  }
}

/** A last segment without a second one. */
function windowLast(pair: Float64Array, x: ArrayLike<number>, first: number, window: Float64Array): void {
  const n = window.length;
  let mean = 0;
  for (let i = 0; i < n; i++) mean += x[first + i];
  mean /= n;
  for (let i = 0; i < n; i++) {
    pair[2 * i] = (x[first + i] - mean) * window[i];
    pair[2 * i + 1] = 0;
  }
}

/** One sample that is not finite leaves nothing finite of its segment's spectrum. */
function refuseNotFinite(power: Float64Array, x: ArrayLike<number>): void {
  if (power.every(Number.isFinite)) return;
  for (let i = 0; i < x.length; i++) {
    if (!Number.isFinite(x[i])) throw invalid(`sample ${i} is ${x[i]}`, 'every sample a finite number');
  }
}

/**
 * The frequency below which the given share of the power lies (mean left out).
 * @param share 0 to 1
 * @returns Hz, NaN for a spectrum without power
 */
export function powerBandwidth(spectrum: Spectrum, share: number): number {
  let total = 0;
  for (let k = 1; k < spectrum.values.length; k++) total += spectrum.values[k];
  if (!(total > 0)) return Number.NaN;
  let sum = 0;
  for (let k = 1; k < spectrum.values.length; k++) {
    sum += spectrum.values[k];
    if (sum >= share * total) return k * spectrum.step_hz;
  }
  return (spectrum.values.length - 1) * spectrum.step_hz;
}

/**
 * The strongest frequency within a band, refined by a parabola through the logarithm of the peak and its neighbours.
 * @param spectrum from `powerDensity`
 * @param low_hz lower end of the band, itself included
 * @param high_hz upper end, itself included
 * @returns Hz, NaN where the band holds no entry
 */
export function dominantFrequency(spectrum: Spectrum, low_hz: number, high_hz: number): number {
  const { values, step_hz } = spectrum;
  let peak = -1;
  for (let k = 1; k < values.length; k++) {
    const f = k * step_hz;
    if (f >= low_hz && f <= high_hz && (peak < 0 || values[k] > values[peak])) peak = k;
  }
  if (peak < 1) return Number.NaN;
  if (peak + 1 >= values.length) return peak * step_hz;
  const [a, b, c] = [values[peak - 1], values[peak], values[peak + 1]].map((v) => Math.log(Math.max(v, 1e-300)));
  const curvature = a - 2 * b + c;
  const shift = curvature < 0 ? (0.5 * (a - c)) / curvature : 0;
  return (peak + Math.max(-0.5, Math.min(0.5, shift))) * step_hz;
}

/**
 * Periodic Hann window, as for spectra (SciPy's `get_window('hann', n)`).
 * @param n points
 * @returns n weights, 0 to 1, the first 0; a single one is 1
 */
export function hannWindow(n: number): Float64Array {
  return Float64Array.from({ length: n }, (_, i) => (n === 1 ? 1 : 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / n)));
}

/**
 * The smallest power of two that is at least n, and at least 2.
 * @param n 1 or more
 * @returns 2, 4, 8 ...
 */
export function nextPowerOfTwo(n: number): number {
  return 2 ** Math.max(1, Math.ceil(Math.log2(n)));
}

function invalid(found: string, allowed: string): FaultError {
  return new FaultError(fault('SPECTRUM_INPUT_INVALID', { found, allowed }, { found }));
}
