import { describe, expect, test } from 'vitest';
import { accelerationAt, distanceAt, fitSprintCurve, speedAt, timeAtDistance } from '../../../dsp/fit/index.ts';
import { gaussNewton } from '../../../dsp/fit/gauss-newton.ts';
import { equalDigits } from '../../helpers/close.ts';

describe('Gauss-Newton, against the certified values of NIST StRD (itl.nist.gov/div898/strd)', () => {
  /** y = amplitude (1 - exp(-rate x)), from NIST's own start values. */
  const rise = (x: number[], y: number[], start: [number, number]) =>
    gaussNewton(start, ([amplitude, rate]) => ({
      residuals: y.map((v, i) => v + amplitude * Math.expm1(-rate * x[i])),
      columns: [x.map((v) => -Math.expm1(-rate * v)), x.map((v) => amplitude * v * Math.exp(-rate * v))],
    }))!;
  type Certified = { parameters: number[]; errors: number[]; rss: number };
  const digits = (fit: ReturnType<typeof rise>, { parameters, errors, rss }: Certified) => {
    const sd = Math.sqrt(fit.residual_sum_of_squares / fit.degrees_of_freedom);
    return Math.min(
      ...parameters.map((value, i) => equalDigits(fit.parameters[i], value)),
      ...errors.map((value, i) => equalDigits(sd * Math.sqrt(fit.unscaled_covariance[i][i]), value)),
      equalDigits(fit.residual_sum_of_squares, rss),
    );
  };

  test.each([[[500, 1e-4]], [[250, 5e-4]]] as [[number, number]][])(
    'Misra1a from %j: every figure to 9 digits',
    (start) => {
      const x = [77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0];
      const y = [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78];
      const certified = {
        parameters: [2.3894212918e2, 5.5015643181e-4],
        errors: [2.7070075241, 7.2668688436e-6],
        rss: 1.2455138894e-1,
      };
      expect(digits(rise(x, y, start), certified)).toBeGreaterThan(9);
    },
  );

  test('BoxBOD from [100, 0.75], where minimisers often fail: every figure to 9 digits', () => {
    const certified = {
      parameters: [2.1380940889e2, 5.4723748542e-1],
      errors: [1.2354515176e1, 1.0455993237e-1],
      rss: 1.1680088766e3,
    };
    const fit = rise([1, 2, 3, 5, 7, 10], [109, 149, 149, 191, 213, 224], [100, 0.75]);
    expect(digits(fit, certified)).toBeGreaterThan(9);
  });
});

describe('the mono-exponential sprint', () => {
  // Worked example computed for this project from the equations of Samozino 2016 (doi 10.1111/sms.12490), 9 decimals.
  const CURVE = { vmax_mps: 9, tau_s: 1.2 };
  const SPLITS = [
    [5, 1.37354065],
    [10, 2.103124657],
    [15, 2.744824962],
    [20, 3.348550575],
    [30, 4.505234883],
    [36.576, 5.248880126],
    [40, 5.633470563],
  ];
  const timed = (shift_s = 0, rows = SPLITS) =>
    rows.map(([distance_m, t]) => ({ distance_m, time_s: t - shift_s, time_s_u: 0.01 }));

  test.each([
    [0.5, 3.066834328, 0.819798806, 4.944304727],
    [1.2, 5.689085029, 3.973097965, 2.759095809],
    [2, 7.300119574, 9.239856511, 1.416567021],
    [5, 8.860465318, 34.367441619, 0.116278902],
  ])('has the worked speed, distance and acceleration at %d s', (t, v, x, a) => {
    expect(speedAt(CURVE, t)).toBeCloseTo(v, 8);
    expect(distanceAt(CURVE, t)).toBeCloseTo(x, 8);
    expect(accelerationAt(CURVE, t)).toBeCloseTo(a, 8);
  });

  test.each(SPLITS)('reaches %d m at the worked time', (distance, time) => {
    expect(timeAtDistance(CURVE, distance)).toBeCloseTo(time, 8);
  });

  test('comes back from its seven splits', () => {
    const fit = fitSprintCurve(timed())!;
    expect(fit.vmax_mps).toBeCloseTo(9, 7);
    expect(fit.tau_s).toBeCloseTo(1.2, 7);
  });

  test('comes back from splits whose clock started late, shift included', () => {
    const fit = fitSprintCurve(timed(0.25), { time_shift: { value: 0, u: 10 } })!;
    expect(fit.vmax_mps).toBeCloseTo(9, 4);
    expect(fit.tau_s).toBeCloseTo(1.2, 4);
    expect(fit.time_shift_s).toBeCloseTo(0.25, 4);
  });

  test('from two gates (30 m 4.35 s, 60 m 7.60 s) has the worked vmax and tau', () => {
    // Procedure of de Ruiter and van Dieen 2019 (doi 10.3390/sports7090202); values computed for this project.
    const fit = fitSprintCurve(
      timed(0, [
        [30, 4.35],
        [60, 7.6],
      ]),
    )!;
    expect(fit.vmax_mps).toBeCloseTo(9.301538465, 8);
    expect(fit.tau_s).toBeCloseTo(1.151015512, 8);
  });

  test.each([
    [6, 12.14717047, 1.22118517],
    [7, 12.21582017, 1.2398871],
  ])('minimises time: Berlin 2009, first %d splits', (count, vmax, tau) => {
    // Splits: Graubner and Nixdorf 2011, New Studies in Athletics 26(1/2):19-53; reaction 0.146 s; fit computed for
    // this project.
    const times = [1.89, 2.88, 3.78, 4.64, 5.47, 6.29, 7.1].slice(0, count);
    const fit = fitSprintCurve(times.map((t, i) => ({ distance_m: 10 * (i + 1), time_s: t - 0.146, time_s_u: 0.01 })))!;
    expect(fit.vmax_mps).toBeCloseTo(vmax, 6);
    expect(fit.tau_s).toBeCloseTo(tau, 6);
  });
});
