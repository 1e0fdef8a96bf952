/** What a fit does beside the certified values of tests/outside-checks/fit: edges, derivatives, priors, further evidence. */
import { describe, expect, it } from 'vitest';
import { fitSprintCurve } from '../../../dsp/fit/fit-sprint-curve.ts';
import { gaussNewton } from '../../../dsp/fit/gauss-newton.ts';
import {
  accelerationAt,
  distanceAt,
  distanceGradient,
  speedAt,
  timeAtDistance,
} from '../../../dsp/fit/sprint-curve.ts';

const CURVE = { vmax_mps: 9, tau_s: 1.2 };

describe('the sprint curve', () => {
  it('stands still before the first movement', () => {
    expect([speedAt(CURVE, 0), speedAt(CURVE, -1), distanceAt(CURVE, 0), distanceAt(CURVE, -1)]).toEqual([0, 0, 0, 0]);
    expect([accelerationAt(CURVE, -0.001), accelerationAt(CURVE, 0)]).toEqual([0, 7.5]);
    expect([timeAtDistance(CURVE, 0), timeAtDistance(CURVE, -3)]).toEqual([0, 0]);
  });

  it('reaches a distance when it has run it, from a hair to a kilometre', () => {
    for (const d of [1e-9, 1e-3, 0.4, 5, 10.8, 11, 60, 1000]) {
      const t = timeAtDistance(CURVE, d);
      expect(Math.abs(distanceAt(CURVE, t) / d - 1)).toBeLessThan(1e-9);
    }
  });

  it('has speed, acceleration and gradient as its derivatives', () => {
    const h = 1e-5;
    for (const t of [0.3, 1, 4]) {
      expect((distanceAt(CURVE, t + h) - distanceAt(CURVE, t - h)) / (2 * h)).toBeCloseTo(speedAt(CURVE, t), 7);
      expect((speedAt(CURVE, t + h) - speedAt(CURVE, t - h)) / (2 * h)).toBeCloseTo(accelerationAt(CURVE, t), 7);
      const { vmax, tau } = distanceGradient(CURVE, t);
      const at = (vmax_mps: number, tau_s: number) => distanceAt({ vmax_mps, tau_s }, t);
      expect((at(9 + h, 1.2) - at(9 - h, 1.2)) / (2 * h)).toBeCloseTo(vmax, 7);
      expect((at(9, 1.2 + h) - at(9, 1.2 - h)) / (2 * h)).toBeCloseTo(tau, 6);
    }
  });
});

describe('gaussNewton', () => {
  const line = (x: number[], y: number[]) => (p: readonly number[]) => ({
    residuals: y.map((v, i) => v - p[0] - p[1] * x[i]),
    columns: [x.map(() => 1), x],
  });

  it('solves a straight line in one step, from anywhere, with its covariance', () => {
    const fit = gaussNewton([50, -9], line([0, 1, 2, 3], [1, 3, 2, 4]))!;
    expect(fit.parameters[0]).toBeCloseTo(1.3, 12);
    expect(fit.parameters[1]).toBeCloseTo(0.8, 12);
    expect(fit.residual_sum_of_squares).toBeCloseTo(1.8, 12);
    expect([fit.degrees_of_freedom, fit.converged]).toEqual([2, true]);
    expect(fit.unscaled_covariance[1][1]).toBeCloseTo(0.2, 12);
  });

  it('halves steps that lead out of the domain or uphill', () => {
    // sqrt(p) = 2 from far below: the first full step overshoots into what is allowed only above 0.
    const root = gaussNewton([0.01], ([p]) =>
      p > 0 && p < 20 ? { residuals: [2 - Math.sqrt(p)], columns: [[0.5 / Math.sqrt(p)]] } : null,
    )!;
    expect(root.parameters[0]).toBeCloseTo(4, 9);
    // atan: a full step from 3 would fly away.
    const bent = gaussNewton([3], ([p]) => ({ residuals: [-Math.atan(p)], columns: [[1 / (1 + p * p)]] }))!;
    expect(bent.parameters[0]).toBeCloseTo(0, 9);
    expect(bent.converged).toBe(true);
  });

  it('has no answer where the model is undefined at the start, or its columns depend on each other', () => {
    expect(gaussNewton([1], () => null)).toBeNull();
    expect(
      gaussNewton([1, 1], () => ({
        residuals: [1, 2, 3],
        columns: [
          [1, 1, 1],
          [2, 2, 2],
        ],
      })),
    ).toBeNull();
  });

  it('says that it has not converged where steps run out', () => {
    const slow = gaussNewton([1], ([p]) => ({ residuals: [-(p ** 3)], columns: [[3 * p * p]] }), 2)!;
    expect(slow.converged).toBe(false);
    expect(slow.parameters[0]).toBeCloseTo(4 / 9, 12);
  });
});

describe('fitSprintCurve', () => {
  const timed = (distances: number[], shift_s = 0, u = 0.01) =>
    distances.map((distance_m) => ({ distance_m, time_s: timeAtDistance(CURVE, distance_m) - shift_s, time_s_u: u }));

  it('has no answer for times that are none', () => {
    expect(fitSprintCurve(timed([30]))).toBeNull();
    expect(fitSprintCurve([])).toBeNull();
    expect(fitSprintCurve([], { tau: { value: 1.2, u: 0.1 } })).toBeNull();
    for (const broken of [{ distance_m: 0 }, { time_s: 0 }, { time_s_u: 0 }]) {
      expect(fitSprintCurve([{ ...timed([10])[0], ...broken }, ...timed([20, 30])])).toBeNull();
    }
  });

  it('of one time goes by what is known of tau before, and is as uncertain', () => {
    const fit = fitSprintCurve(timed([30]), { tau: { value: 1.2, u: 0.1 } })!;
    expect(fit.tau_s).toBeCloseTo(1.2, 6);
    expect(fit.vmax_mps).toBeCloseTo(9, 6);
    expect(Math.sqrt(fit.covariance[1][1])).toBeCloseTo(0.12, 3);
    const wrong = fitSprintCurve(timed([5, 10, 20, 30, 40]), { tau: { value: 1.5, u: 10 } })!;
    expect(wrong.tau_s).toBeCloseTo(1.2, 3);
  });

  it('a fixed shift of the clock is taken as it is, with no uncertainty of its own', () => {
    const fit = fitSprintCurve(timed([5, 10, 20, 40], 0.3), { time_shift: { value: 0.3, u: 0 } })!;
    expect(fit.vmax_mps).toBeCloseTo(9, 7);
    expect(fit.time_shift_s).toBe(0.3);
    expect([fit.covariance[0][2], fit.covariance[2][1], fit.covariance[2][2]]).toEqual([0, 0, 0]);
    expect(fit.covariance[0][0]).toBeGreaterThan(0);
    expect([fit.run_at_clock_zero_m, fit.own, fit.own_u]).toEqual([0, [], []]);
    expect(fit.residual_s).toBeLessThan(1e-8);
  });

  it('distances from where a gate was broken come back with the way run before it', () => {
    const shift_s = 0.5;
    const run_m = distanceAt(CURVE, shift_s);
    const rows = [5, 10, 20, 30].map((d) => ({
      distance_m: d,
      time_s: timeAtDistance(CURVE, d + run_m) - shift_s,
      time_s_u: 0.001,
    }));
    const fit = fitSprintCurve(rows, { time_shift: { value: 0.4, u: 0.3 }, from_clock_zero: true })!;
    expect(fit.vmax_mps).toBeCloseTo(9, 3);
    expect(fit.time_shift_s).toBeCloseTo(0.5, 3);
    expect(fit.run_at_clock_zero_m).toBeCloseTo(run_m, 3);
  });

  it('its uncertainty goes with that of the times', () => {
    const [fine, coarse] = [0.01, 0.03].map((u) => fitSprintCurve(timed([5, 10, 20, 40], 0, u))!);
    expect(Math.sqrt(coarse.covariance[0][0] / fine.covariance[0][0])).toBeCloseTo(3, 6);
  });

  it('states the root mean square of what is left of the times', () => {
    const rows = timed([10, 20, 30, 40]);
    rows[1].time_s += 0.02;
    const fit = fitSprintCurve(rows)!;
    const left = rows.map((row) => row.time_s - timeAtDistance(fit, row.distance_m));
    expect(fit.residual_s).toBeCloseTo(Math.sqrt(left.reduce((s, v) => s + v * v, 0) / 4), 9);
    expect(fit.residual_s).toBeGreaterThan(0.001);
  });

  it('further evidence weighs in with a parameter of its own', () => {
    // Speeds at known times, all too high by one unknown factor.
    const factor = 1.05;
    const at = [1, 2, 3, 4];
    const extra = {
      start: [1],
      linearise: (curve: typeof CURVE, _shift: number, [f]: readonly number[]) => {
        const u = 0.01;
        const h = 1e-6;
        const model = (c: typeof CURVE, g: number, t: number) => g * speedAt(c, t);
        return {
          residuals: at.map((t) => (factor * speedAt(CURVE, t) - model(curve, f, t)) / u),
          columns: [
            at.map((t) => (model({ ...curve, vmax_mps: curve.vmax_mps + h }, f, t) - model(curve, f, t)) / h / u),
            at.map((t) => (model({ ...curve, tau_s: curve.tau_s + h }, f, t) - model(curve, f, t)) / h / u),
            at.map(() => 0),
            at.map((t) => speedAt(curve, t) / u),
          ],
        };
      },
    };
    const fit = fitSprintCurve(timed([10, 40]), { extra })!;
    expect(fit.vmax_mps).toBeCloseTo(9, 4);
    expect(fit.own[0]).toBeCloseTo(1.05, 4);
    expect(fit.own_u[0]).toBeGreaterThan(0);
    // Without a time only the product of speed and factor is told.
    const alone = fitSprintCurve([], { extra, tau: { value: 1.2, u: 0.1 }, vmax_start_mps: 8 })!;
    expect(alone.vmax_mps * alone.own[0]).toBeCloseTo(9 * 1.05, 4);
    expect(alone.tau_s).toBeCloseTo(1.2, 4);
  });
});
