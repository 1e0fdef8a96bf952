import { describe, expect, test } from 'vitest';
import { correctedCutoff, designLowPass } from '../../../dsp/filters/design.ts';
import { filterForward } from '../../../dsp/filters/filter-forward-backward.ts';
import { gainAt, halfPowerFrequency } from '../../../dsp/filters/section.ts';
import { expectColumnsClose } from '../../helpers/close.ts';

/*
 * Winter DA, Biomechanics and Motor Control of Human Movement, 4th ed., p. 69 (the fs/fc = 10 example: 0.06746,
 * 0.13491, 1.14298, -0.41280); further rows computed for this project with SciPy's butter, independently of this code.
 */
const COEFFICIENTS = [
  { cutoff: 50, rate: 500, passes: 1, a0: 0.0674552739, a1: 0.1349105478, b1: 1.1429805025, b2: -0.4128015981 },
  { cutoff: 60, rate: 1000, passes: 1, a0: 0.0278597661, a1: 0.0557195322, b1: 1.4754804436, b2: -0.5869195081 },
  { cutoff: 30, rate: 200, passes: 1, a0: 0.1311064399, a1: 0.2622128798, b1: 0.7477891783, b2: -0.2722149379 },
  { cutoff: 12, rate: 250, passes: 1, a0: 0.0186503962, a1: 0.0373007925, b1: 1.5782361785, b2: -0.6528377634 },
  { cutoff: 50, rate: 500, passes: 2, a0: 0.0944467439, a1: 0.1888934878, b1: 0.9626413088, b2: -0.3404282844 },
  { cutoff: 60, rate: 1000, passes: 2, a0: 0.0405946814, a1: 0.0811893629, b1: 1.3547488152, b2: -0.517127541 },
];

describe('second-order Butterworth low-pass', () => {
  test.each(COEFFICIENTS)('has the published coefficients at $cutoff Hz of $rate, $passes passes', (row) => {
    const [section] = designLowPass(correctedCutoff(row.cutoff, row.rate, 2, row.passes), row.rate, 2);
    expect(section.gain).toBeCloseTo(row.a0, 9);
    expect(section.gain * section.b1).toBeCloseTo(row.a1, 9);
    expect(-section.a1).toBeCloseTo(row.b1, 9);
    expect(-section.a2).toBeCloseTo(row.b2, 9);
    expect(halfPowerFrequency([section], row.rate, row.passes)).toBeCloseTo(row.cutoff, 9);
  });

  // Source of the three corrected cut-offs: computed for this project from Winter's correction on the pre-warped
  // frequency.
  test.each([
    [6, 60, 7.3495443646],
    [60, 1000, 74.3088495847],
    [50, 500, 61.2462030381],
  ])('needs the corrected cut-off on the pre-warped frequency (%d Hz of %d)', (cutoff, rate, corrected) => {
    expect(correctedCutoff(cutoff, rate, 2)).toBeCloseTo(corrected, 9);
  });

  test('uncorrected, two passes give half the amplitude at the cut-off (-6.02 dB)', () => {
    expect(gainAt(designLowPass(50, 500), 50, 500) ** 2).toBeCloseTo(0.5, 12);
  });

  test('has the published impulse and step response at fc/fs = 0.1', () => {
    // Computed for this project with SciPy, independently of this code.
    const impulse = [0.06745527, 0.21201061, 0.28193362, 0.23472632, 0.15190495, 0.076729, 0.02499314, -0.00310718];
    const step = [0.06745527, 0.27946588, 0.56139951, 0.79612582, 0.94803078, 1.02475978, 1.04975292, 1.04664574];
    const sections = designLowPass(100, 1000);
    // A leading zero makes the steady state zero, as for a filter at rest.
    const ofImpulse = filterForward(sections, [0, 1, 0, 0, 0, 0, 0, 0, 0]).slice(1);
    const ofStep = filterForward(sections, [0, 1, 1, 1, 1, 1, 1, 1, 1]).slice(1);
    expectColumnsClose(ofImpulse, impulse, 8);
    expectColumnsClose(ofStep, step, 8);
  });
});
