import { describe, expect, test } from 'vitest';
import { fitSprintCurve, type SprintCurve, timeAtDistance } from '../../../dsp/fit/index.ts';
import { STRIDE_SETTINGS } from '../../../dsp/settings/strides.ts';
import { accelerationKinetics, bodyAndAir } from '../../../dsp/strides/acceleration-kinetics.ts';
import { uncertainKinetics } from '../../../dsp/strides/kinetics-uncertainty.ts';
import { type Conditions, type KineticQuantities, UNKNOWN_CONDITIONS } from '../../../shared/analysis.ts';
import { normal } from '../../helpers/random.ts';

const CURVE: SprintCurve = { vmax_mps: 9, tau_s: 1.2 };
const MEASURED: Conditions = {
  body_mass_kg: 75,
  stature_m: 1.8,
  leg_length_m: null,
  temperature_c: 20,
  pressure_hpa: 1013.25,
  wind_mps: 0,
};
const QUANTITIES: (keyof KineticQuantities)[] = [
  'horizontal_force_f0_n_per_kg',
  'velocity_v0_mps',
  'power_max_w_per_kg',
  'ratio_of_force_max',
  'ratio_of_force_slope',
  'force_velocity_slope',
];

const kineticsOf = (conditions: Conditions, curve = { ...CURVE, vmax_mps_u: 0.05, tau_s_u: 0.02, covariance_m: 0 }) =>
  uncertainKinetics(curve, bodyAndAir(conditions)!, conditions, STRIDE_SETTINGS)!;

describe('uncertainty of force and power', () => {
  test('intervals hold the truth in about 95 % of sprints over four gates in known air', () => {
    const exact = { gauge: 0, unknown: 0, measured: 0 };
    const settings = {
      ...STRIDE_SETTINGS,
      kinetics: { method_share_u: 0, wind_mps_u: exact, temperature_c_u: exact, pressure_hpa_u: exact },
    };
    const body = bodyAndAir(MEASURED)!;
    const truth = accelerationKinetics(CURVE, body)!;
    const z = normal(3);
    const inside = new Map(QUANTITIES.map((field) => [field, 0]));
    const sprints = 120;
    for (let k = 0; k < sprints; k++) {
      const times = [10, 20, 30, 40].map((distance_m) => ({
        distance_m,
        time_s: timeAtDistance(CURVE, distance_m) + 0.01 * z(),
        time_s_u: 0.01,
      }));
      const fit = fitSprintCurve(times)!;
      const found = uncertainKinetics(
        {
          ...fit,
          vmax_mps_u: Math.sqrt(fit.covariance[0][0]),
          tau_s_u: Math.sqrt(fit.covariance[1][1]),
          covariance_m: fit.covariance[0][1],
        },
        body,
        MEASURED,
        settings,
      )!;
      for (const field of QUANTITIES) {
        if (Math.abs(found[field] - truth[field]) < 1.96 * found[`${field}_u`])
          inside.set(field, inside.get(field)! + 1);
      }
    }
    for (const [field, count] of inside) {
      expect(count / sprints, field).toBeGreaterThan(0.9);
      expect(count / sprints, field).toBeLessThan(0.995);
    }
  });

  test('is never below the published bias of the method, 5 % for 95 % (Morin et al. 2019)', () => {
    const found = kineticsOf(MEASURED, { ...CURVE, vmax_mps_u: 0, tau_s_u: 0, covariance_m: 0 });
    for (const field of QUANTITIES) expect(found[`${field}_u`]).toBeGreaterThanOrEqual(0.025 * Math.abs(found[field]));
  });

  test('grows when nobody measured the wind, most where the air weighs most', () => {
    const calm = kineticsOf(MEASURED);
    const unknown = kineticsOf({ ...MEASURED, wind_mps: null });
    expect(unknown.velocity_v0_mps).toBe(calm.velocity_v0_mps);
    expect(unknown.velocity_v0_mps_u).toBeGreaterThan(calm.velocity_v0_mps_u);
    expect(unknown.horizontal_force_f0_n_u / calm.horizontal_force_f0_n_u).toBeLessThan(
      unknown.velocity_v0_mps_u / calm.velocity_v0_mps_u,
    );
  });

  test('without mass or stature there is nothing to say', () => {
    expect(bodyAndAir({ ...MEASURED, body_mass_kg: null })).toBeNull();
    expect(bodyAndAir({ ...UNKNOWN_CONDITIONS, body_mass_kg: 70 })).toBeNull();
  });
});
