import { FaultError, fault } from '../../shared/fault.ts';
import type { Section } from './section.ts';

/**
 * Zero-phase filtering: forward, then backward, so that no instant is moved. The signal is extended at both ends by its
 * odd reflection (about the end point), and each pass starts from the steady state of its first sample, so that
 * a signal at rest stays at rest. The same method as SciPy's `sosfiltfilt` with its default padding.
 *
 * The gain acts twice: the effective order doubles and the design's cut-off ends at -6 dB (`halfPowerFrequency`).
 *
 * @param sections cascade from `designLowPass` or `designHighPass`
 * @param x samples at a constant rate, all finite (for signals with gaps: `filterSegments`). A signal shorter than the
 *   padding (6 samples a section plus 3) is padded with what it has, one sample less than its length
 * @returns a new array of the same length
 * @throws FaultError SIGNAL_NOT_FINITE: a NaN would poison every later sample of a recursive filter
 */
export function filterForwardBackward(sections: readonly Section[], x: ArrayLike<number>): Float64Array {
  const n = x.length;
  if (n === 0) return new Float64Array(0);
  const padding = Math.min(paddingOf(sections), n - 1);
  const extended = extendOdd(x, padding);
  runCascade(sections, extended);
  extended.reverse();
  runCascade(sections, extended);
  extended.reverse();
  return extended.slice(padding, padding + n);
}

/**
 * Samples of padding at each end: three times the number of taps, 2 a section plus 1. SciPy's default.
 * @param sections second-order sections
 * @returns samples at each end
 */
export function paddingOf(sections: readonly Section[]): number {
  return 3 * (2 * sections.length + 1);
}

/**
 * One causal pass of a cascade, from the steady state of the first sample. Delays the signal: for live display only.
 * @param sections second-order sections
 * @param x finite samples
 * @returns a new array of the same length
 */
export function filterForward(sections: readonly Section[], x: ArrayLike<number>): Float64Array {
  const y = extendOdd(x, 0);
  if (y.length > 0) runCascade(sections, y);
  return y;
}

/** Copy of x with `padding` samples in front and behind, reflected about the end points; checks that all are finite. */
function extendOdd(x: ArrayLike<number>, padding: number): Float64Array {
  const n = x.length;
  const extended = new Float64Array(n + 2 * padding);
  for (let i = 0; i < n; i++) {
    const value = x[i];
    if (!Number.isFinite(value)) throw notFinite(i, value);
    extended[padding + i] = value;
  }
  const [first, last] = [x[0], x[n - 1]];
  for (let i = 1; i <= padding; i++) {
    extended[padding - i] = 2 * first - x[i];
    extended[padding + n - 1 + i] = 2 * last - x[n - 1 - i];
  }
  return extended;
}

/** Filters in place, section by section, direct form II transposed, from the steady state of the first sample. */
function runCascade(sections: readonly Section[], x: Float64Array): void {
  const n = x.length;
  let level = x[0];
  for (const { b0, b1, b2, a1, a2 } of sections) {
    const gain = (b0 + b1 + b2) / (1 + a1 + a2);
    // State that a constant input `level` would have settled to.
    let s1 = level * (gain - b0);
    let s2 = level * (b2 - a2 * gain);
    level *= gain;
    for (let i = 0; i < n; i++) {
      const input = x[i];
      const output = b0 * input + s1;
      s1 = b1 * input - a1 * output + s2;
      s2 = b2 * input - a2 * output;
      x[i] = output;
    }
  }
}

function notFinite(index: number, value: number): FaultError {
  const where = { index, value: String(value) };
  return new FaultError(fault('SIGNAL_NOT_FINITE', where, where));
}
