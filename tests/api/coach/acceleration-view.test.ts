import { expect, test } from 'vitest';
import { accelerationView } from '../../../api/coach/judgement/acceleration-view.ts';
import { distanceAt, timeAtDistance } from '../../../dsp/fit/index.ts';
import type { SprintTest } from '../../../shared/schemas/coach/sprint-test.ts';

const CURVE = { vmax_mps: 8.5, tau_s: 1.15 };

function timed(distances_m: number[], timing_method: SprintTest['timing_method'] = 'touch_pad_beam'): SprintTest {
  return {
    sprint_test_id: 1,
    athlete_id: 1,
    date: '2026-03-01',
    distance_m: 36.576,
    distance_unit: 'yd',
    start_style: 'three_point',
    timing_method,
    time_s: timeAtDistance(CURVE, 36.576),
    watches_s: [],
    splits: distances_m.map((distance_m) => ({ distance_m, split_time_s: timeAtDistance(CURVE, distance_m) })),
    wind_mps: null,
    repetition_id: null,
    note: '',
  };
}

test('exact splits of a known sprint give its speed, its curve and the force-speed line of its equations', () => {
  const view = accelerationView(timed([5, 10, 20, 30]), { body_mass_kg: 70, stature_m: 1.75 })!;
  expect(view.vmax_mps).toBeCloseTo(8.5, 1);
  expect(view.tau_s).toBeCloseTo(1.15, 1);
  expect(view.curve.at(-1)!.distance_m).toBeCloseTo(36.576, 2);
  // Closed form: 95 % of the maximum is reached at t = tau ln 20.
  expect(view.distance_95_m).toBeCloseTo(distanceAt(CURVE, 1.15 * Math.log(20)), 0);
  // Without drag F0 / m = vmax / tau = 7.39 m/s2; drag and the fitted line move it by a few per cent.
  expect(view.force_velocity!.force_n_per_kg).toBeGreaterThan(7);
  expect(view.force_velocity!.force_n_per_kg).toBeLessThan(8);
  expect(view.force_velocity!.power_w_per_kg).toBeCloseTo(
    (view.force_velocity!.force_n_per_kg * view.force_velocity!.velocity_mps) / 4,
    6,
  );
});

test('one split and the finish still give a curve, with a wider error', () => {
  const few = accelerationView(timed([18.288]), { body_mass_kg: 70, stature_m: 1.75 })!;
  const many = accelerationView(timed([5, 10, 20, 30]), { body_mass_kg: 70, stature_m: 1.75 })!;
  expect(few.vmax_mps).toBeCloseTo(8.5, 0);
  expect(few.vmax_mps_u!).toBeGreaterThan(many.vmax_mps_u!);
});

test('without body mass or stature the force is left out and the reason is said', () => {
  const view = accelerationView(timed([10, 20]), { body_mass_kg: null, stature_m: 1.75 })!;
  expect(view.force_velocity).toBeNull();
  expect(view.why_not).toContain('body mass and stature');
});
