import fili from 'fili';
import { FaultError, fault } from '../../shared/fault.ts';
import type { Section } from './section.ts';

/** Highest order offered: fili stops at 12 sections without a word. */
const MAX_ORDER = 24;
const cascades = new fili.CalcCascades();

/**
 * Butterworth low-pass by the bilinear transform, as a cascade of second-order sections.
 * @param cutoff_hz frequency of -3 dB after ONE pass, above 0 and below rate_hz / 2. Two passes (forward and backward)
 *   give -6 dB there: see `correctedCutoff`
 * @param rate_hz sampling rate
 * @param order even, 2 to 24: the filter's order of one pass (order / 2 sections)
 * @throws FaultError FILTER_DESIGN_INVALID; fili itself would return NaN coefficients without an error
 */
export function designLowPass(cutoff_hz: number, rate_hz: number, order = 2): Section[] {
  return design('lowpass', cutoff_hz, rate_hz, order);
}

/**
 * Butterworth high-pass; arguments and errors as `designLowPass`.
 * @param cutoff_hz -3 dB point of a single pass
 * @param rate_hz samples a second
 * @param order even; poles of a single pass
 * @throws FaultError INVALID_ARGUMENT as `designLowPass`
 */
export function designHighPass(cutoff_hz: number, rate_hz: number, order = 2): Section[] {
  return design('highpass', cutoff_hz, rate_hz, order);
}

/**
 * The single-pass cut-off to design with so that `passes` passes together are at -3 dB at `cutoff_hz`.
 * The correction C = (2^(1/passes) - 1)^(1/(2 order)) acts on the pre-warped frequency tan(pi fc / fs), divided for a
 * low-pass and multiplied for a high-pass. Source: Winter, Biomechanics and Motor Control of Human Movement, 4th ed.,
 * p. 69; Robertson et al., Research Methods in Biomechanics, 2nd ed., p. 288.
 * @param cutoff_hz where all passes together are at -3 dB
 * @param rate_hz samples a second
 * @param order poles of a single pass
 * @param passes 1, or 2 for forward and backward
 * @param kind low-pass or high-pass
 * @returns Hz
 */
export function correctedCutoff(
  cutoff_hz: number,
  rate_hz: number,
  order: number,
  passes = 2,
  kind: 'low-pass' | 'high-pass' = 'low-pass',
): number {
  const c = (2 ** (1 / passes) - 1) ** (1 / (2 * order));
  const warped = Math.tan((Math.PI * cutoff_hz) / rate_hz);
  return (Math.atan(kind === 'low-pass' ? warped / c : warped * c) * rate_hz) / Math.PI;
}

function design(kind: 'lowpass' | 'highpass', cutoff_hz: number, rate_hz: number, order: number): Section[] {
  if (!(rate_hz > 0 && Number.isFinite(rate_hz) && cutoff_hz > 0 && cutoff_hz < rate_hz / 2)) {
    throw invalid('cutoff_hz', cutoff_hz, `above 0 and below half the sampling rate (${rate_hz} Hz)`);
  }
  if (!(Number.isInteger(order) && order % 2 === 0 && order >= 2 && order <= MAX_ORDER)) {
    throw invalid('order', order, `an even number from 2 to ${MAX_ORDER}`);
  }
  const designed = cascades[kind]({ order: order / 2, characteristic: 'butterworth', Fs: rate_hz, Fc: cutoff_hz });
  const sections = designed.map(({ k, a, b }) => ({ gain: k * b[0], b1: b[1] / b[0], a1: a[0], a2: a[1] }));
  for (const { a1, a2, gain } of sections) {
    // Both poles inside the unit circle (the stability triangle), else the output grows without bound.
    if (!(Math.abs(a2) < 1 && Math.abs(a1) < 1 + a2 && Number.isFinite(gain))) {
      throw invalid(
        'cutoff_hz',
        cutoff_hz,
        'not so close to 0 or to half the sampling rate that the filter is unstable',
      );
    }
  }
  return sections;
}

function invalid(field: string, value: number, allowed: string): FaultError {
  return new FaultError(fault('FILTER_DESIGN_INVALID', { field, value: String(value), allowed }, { field, value }));
}
