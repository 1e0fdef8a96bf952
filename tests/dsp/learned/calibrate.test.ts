/** Intervals from errors on left-out runners, against ones that are known. */
import { describe, expect, it } from 'vitest';
import { calibrate, type LeftOutError } from '../../../dsp/learned/calibrate.ts';
import { intervalAt } from '../../../dsp/learned/contact-model.ts';
import { normal, uniform } from '../../helpers/random.ts';

/** Errors of so many runners with as many contacts each, of the standard deviation that `scale` gives for the trees' spread. */
function errorsOf(runners: number, each: number, scale: (spread_s: number) => number): LeftOutError[] {
  const [z, chance] = [normal(11), uniform(12)];
  return Array.from({ length: runners * each }, (_, i) => {
    const spread_s = 0.001 + 0.009 * chance();
    const runner = `runner ${i % runners}`;
    return { error_s: scale(spread_s) * z(), spread_s, runner, foot: `${runner} ${i % 2}` };
  });
}

/** Share of errors within 1.96 of the stated standard uncertainty. */
function held(errors: readonly LeftOutError[], interval: ReturnType<typeof calibrate>): number {
  const within = errors.filter(({ error_s, spread_s }) => Math.abs(error_s) <= 1.96 * intervalAt(interval, spread_s));
  return within.length / errors.length;
}

describe('intervals of left-out errors', () => {
  it('errors of one size, whatever the spread, get one width that holds 95 %', () => {
    const errors = errorsOf(40, 50, () => 0.004);
    const interval = calibrate(errors);
    expect(interval.per_spread).toBe(0);
    expect(intervalAt(interval, 0)).toBeGreaterThan(0.0037);
    expect(intervalAt(interval, 0.01)).toBeLessThan(0.0043);
    expect(held(errors, interval)).toBeCloseTo(0.95, 2);
  });

  it('errors that grow with the spread get a width that grows with it', () => {
    const errors = errorsOf(40, 50, (spread_s) => spread_s);
    const interval = calibrate(errors);
    expect(interval.per_spread).toBeGreaterThan(0.5);
    expect(intervalAt(interval, 0.01) / intervalAt(interval, 0.002)).toBeGreaterThan(2);
    expect(held(errors, interval)).toBeCloseTo(0.95, 2);
  });

  it('few runners make it wider: the next one may differ by more', () => {
    const few = errorsOf(3, 600, () => 0.004);
    const many = few.map((error, i) => ({ ...error, runner: `runner ${i % 90}` }));
    expect(calibrate(few).factor).toBeGreaterThan(calibrate(many).factor);
    expect(held(few, calibrate(few))).toBeGreaterThan(0.99);
  });

  it('what is the same in every contact of a foot is no part of what changes', () => {
    const z = normal(4);
    const feet = Array.from({ length: 30 }, () => 0.004 * z());
    const constant = feet.flatMap((error_s, foot) =>
      Array.from({ length: 20 }, () => ({ error_s, spread_s: 0, runner: `r${foot}`, foot: `f${foot}` })),
    );
    expect(calibrate(constant).repeatable).toBeCloseTo(0, 9);
    // Of two alike parts, one of the foot and one of the contact, the second is the root of a half.
    const both = constant.map((error) => ({ ...error, error_s: error.error_s + 0.004 * z() }));
    expect(calibrate(both).repeatable).toBeGreaterThan(0.6);
    expect(calibrate(both).repeatable).toBeLessThan(0.82);
    const alone = constant.map((error) => ({ ...error, error_s: 0.004 * z() }));
    expect(calibrate(alone).repeatable).toBeGreaterThan(0.97);
  });
});

it('a standard uncertainty is the root of the sum of squares of floor and spread, by the factor', () => {
  const interval = { floor_s: 0.003, per_spread: 2, factor: 1.5, repeatable: 1 };
  expect(intervalAt(interval, 0.002)).toBeCloseTo(1.5 * 0.005, 12);
  expect(intervalAt(interval, 0)).toBeCloseTo(0.0045, 12);
});
