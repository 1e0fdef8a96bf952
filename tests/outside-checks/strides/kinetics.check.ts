import { describe, expect, test } from 'vitest';
import { accelerationKinetics, dragConstant, forcesAt } from '../../../dsp/strides/acceleration-kinetics.ts';
import { springMass } from '../../../dsp/strides/stiffness.ts';

describe('Samozino et al. 2016, doi 10.1111/sms.12490: worked example (computed for this project from its equations)', () => {
  const CURVE = { vmax_mps: 9, tau_s: 1.2 };
  const BODY = {
    body_mass_kg: 75,
    stature_m: 1.8,
    temperature_c: 20,
    pressure_hpa: 1013.25,
    wind_mps: 0,
    gravity_mps2: 9.81,
  };

  test('drag constant', () => {
    expect(dragConstant(BODY)).toBeCloseTo(0.28014723, 8);
  });

  test.each([
    [0, 0, 0, 562.5, 0, 0.60736],
    [0.5, 3.066834, 2.634917, 373.457772, 1145.333114, 0.452618],
    [1, 5.088616, 7.254136, 251.715629, 1280.884206, 0.323701],
    [2, 7.30012, 14.929535, 121.172062, 884.570539, 0.162503],
    [3, 8.261235, 19.119489, 65.292301, 539.395043, 0.088395],
    [4, 8.678934, 21.101781, 41.168402, 357.297848, 0.055867],
  ])('forces at %d s', (t, v, drag, force, power, ratio) => {
    const f = forcesAt(CURVE, t, BODY);
    expect(f.speed_mps).toBeCloseTo(v, 6);
    expect(f.drag_n).toBeCloseTo(drag, 6);
    expect(f.horizontal_force_n).toBeCloseTo(force, 6);
    expect(f.power_w).toBeCloseTo(power, 5);
    expect(f.ratio_of_force).toBeCloseTo(ratio, 6);
  });

  test('force-speed line, power, ratio of force and its slope', () => {
    const k = accelerationKinetics(CURVE, BODY)!;
    expect(k.horizontal_force_f0_n).toBeCloseTo(556.544533, 5);
    expect(k.horizontal_force_f0_n_per_kg).toBeCloseTo(7.420594, 6);
    expect(k.velocity_v0_mps).toBeCloseTo(9.354453, 6);
    expect(k.force_velocity_slope).toBeCloseTo(-59.495145, 6);
    expect(k.power_max_w).toBeCloseTo(1301.542399, 4);
    expect(k.power_max_w_per_kg).toBeCloseTo(17.353899, 6);
    expect(k.ratio_of_force_max).toBeCloseTo(0.512551, 6);
    expect(k.ratio_of_force_slope).toBeCloseTo(-0.071648, 6);
  });

  test('without air the lines are the closed form: F0 = m vmax / tau, v0 = vmax, P = m vmax^2 / (4 tau)', () => {
    const k = accelerationKinetics(CURVE, { ...BODY, pressure_hpa: 0 })!;
    expect(k.horizontal_force_f0_n).toBeCloseTo(562.5, 6);
    expect(k.velocity_v0_mps).toBeCloseTo(9, 8);
    expect(k.power_max_w).toBeCloseTo(1265.625, 5);
  });

  test('wind from behind takes drag away, faster than the runner it pushes', () => {
    expect(forcesAt(CURVE, 3, { ...BODY, wind_mps: 2 }).drag_n).toBeLessThan(forcesAt(CURVE, 3, BODY).drag_n);
    expect(forcesAt(CURVE, 0.1, { ...BODY, wind_mps: 2 }).drag_n).toBeLessThan(0);
  });
});

describe('Morin et al. 2005, J Appl Biomech 21:167-180: spring-mass values (computed for this project)', () => {
  test.each([
    ['A', 70, 3.33, 0.92, 0.25, 0.11, 9.81, 1553.278806, 0.063877, 0.163429, 24.316611, 9.504324],
    ['B', 70, 6.67, 0.92, 0.17, 0.13, 9.81, 1903.527949, 0.044188, 0.239642, 43.077759, 7.943227],
    ['C', 75, 9.5, 0.954, 0.105, 0.13, 9.81, 2586.596651, 0.025006, 0.165763, 103.439381, 15.604209],
    ['A, standard gravity', 70, 3.33, 0.92, 0.25, 0.11, 9.80665, 1552.74838, 0.063855, 0.163407, 24.316611, 9.502346],
    ['B, standard gravity', 70, 6.67, 0.92, 0.17, 0.13, 9.80665, 1902.877916, 0.044173, 0.239627, 43.077759, 7.941015],
  ])('case %s', (_, m, v, l, tc, tf, g, force, lowering, shortening, vertical, leg) => {
    const s = springMass({
      body_mass_kg: m,
      speed_mps: v,
      leg_length_m: l,
      contact_time_s: tc,
      flight_time_s: tf,
      gravity_mps2: g,
    });
    expect(s.force_max_n).toBeCloseTo(force, 6);
    expect(s.lowering_m).toBeCloseTo(lowering, 6);
    expect(s.leg_shortening_m).toBeCloseTo(shortening, 6);
    expect(s.vertical_stiffness_npm / 1000).toBeCloseTo(vertical, 6);
    expect(s.leg_stiffness_npm / 1000).toBeCloseTo(leg, 6);
  });

  test('Zagreb 2011: 3932 N, 4.2 body weights (Coh et al. 2018, doi 10.26582/k.50.2.10)', () => {
    const { force_max_n } = springMass({
      body_mass_kg: 95,
      speed_mps: 12.14,
      leg_length_m: 1,
      contact_time_s: 0.086,
      flight_time_s: 0.145,
      gravity_mps2: 9.81,
    });
    expect(Math.round(force_max_n)).toBe(3932);
    expect(force_max_n / (95 * 9.81)).toBeCloseTo(4.2, 1);
  });
});
