/** What was supposed of the clock and the time constant, and how far it moves F0. */
import { describe, expect, test } from 'vitest';
import { distanceAt, fitSprintCurve, timeAtDistance } from '../../../dsp/fit/index.ts';
import { priorEffect } from '../../../dsp/strides/prior-effect.ts';

const CURVE = { vmax_mps: 9, tau_s: 1.25 };
const LATE_S = 0.05;
/** Times of a clock that started late, exact to the rounding of numbers. */
const times = (...distances: number[]) =>
  distances.map((distance_m) => ({ distance_m, time_s: timeAtDistance(CURVE, distance_m) - LATE_S, time_s_u: 0.01 }));

describe('the effect of what a fit supposes', () => {
  test('a clock supposed to start with the movement pulls F0 away from what four gates give by themselves, by the size that is told', () => {
    const gates = times(5, 10, 20, 40);
    const options = { time_shift: { value: 0, u: 0.02 } };
    const fit = fitSprintCurve(gates, options)!;
    const { f0_prior_pull_share, f0_prior_u_share } = priorEffect(gates, options, fit, true);
    const truth = CURVE.vmax_mps / CURVE.tau_s;
    // By themselves the exact times give the curve they were made of.
    expect(1 + f0_prior_pull_share!).toBeCloseTo(fit.vmax_mps / fit.tau_s / truth, 3);
    expect(f0_prior_pull_share!).toBeGreaterThan(0.01);
    expect(f0_prior_u_share).toBeGreaterThan(0.005);
  });

  test('a supposition that the times bear out pulls nothing', () => {
    const gates = times(5, 10, 20, 40);
    const options = { time_shift: { value: LATE_S, u: 0.02 } };
    const { f0_prior_pull_share } = priorEffect(gates, options, fitSprintCurve(gates, options)!, true);
    expect(Math.abs(f0_prior_pull_share!)).toBeLessThan(1e-4);
  });

  test('with two gates alone the clock cannot be told, so no pull is stated, but what it stands for is', () => {
    const gates = times(20, 40);
    const options = { time_shift: { value: 0, u: 0.02 } };
    const effect = priorEffect(gates, options, fitSprintCurve(gates, options)!, false);
    expect(effect.f0_prior_pull_share).toBeNull();
    const shifted = fitSprintCurve(gates, { time_shift: { value: 0.02, u: 0 } })!;
    const plain = fitSprintCurve(gates, { time_shift: { value: 0, u: 0 } })!;
    const moved = shifted.vmax_mps / shifted.tau_s / (plain.vmax_mps / plain.tau_s) - 1;
    expect(effect.f0_prior_u_share).toBeCloseTo(Math.abs(moved), 2);
  });

  test('with one time F0 goes against the time constant that was supposed', () => {
    const [time] = times(40);
    const options = { tau: { value: 1.3, u: 0.25 } };
    const fit = fitSprintCurve([time], options)!;
    const { f0_prior_u_share } = priorEffect([time], options, fit, false);
    // A time constant a quarter longer with the same time at 40 m: vmax rises, vmax / tau falls.
    const longer = fitSprintCurve([time], { tau: { value: 1.3 * 1.25, u: 1e-6 } })!;
    expect(distanceAt(longer, time.time_s)).toBeCloseTo(40, 2);
    expect(f0_prior_u_share).toBeCloseTo(1 - longer.vmax_mps / longer.tau_s / (fit.vmax_mps / fit.tau_s), 2);
  });
});
