import { expect, test } from 'vitest';
import { addSprintTest } from '../../../api/coach/tests/sprint-tests.ts';
import { sprintTestView } from '../../../api/coach/tests/sprint-test-view.ts';
import { Store } from '../../../api/store/store.ts';
import { accelerationView } from '../../../api/coach/judgement/acceleration-view.ts';
import { distanceAt, timeAtDistance } from '../../../dsp/fit/index.ts';
import type { SprintTest } from '../../../shared/schemas/coach/sprint-test.ts';
import { makeAthlete } from './make-club.ts';

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

test('the misfit is told only where there are more times than unknowns', () => {
  const body = { body_mass_kg: 70, stature_m: 1.75 };
  // Top speed, time constant and the clock's shift: three unknowns. The finish is a time as well.
  expect(accelerationView(timed([10, 20]), body)).toMatchObject({ points: 3, unknowns: 3, residual_s: null });
  const more = accelerationView(timed([5, 10, 20, 30]), body)!;
  expect(more).toMatchObject({ points: 5, unknowns: 3 });
  expect(more.residual_s!).toBeLessThan(0.005);
});

test('days are compared: of several runs of one day and kind the fastest tells the acceleration', () => {
  const store = Store.open(':memory:');
  const athlete_id = makeAthlete(store, 'Wren');
  const run = (date: string, slower_s: number, timing_method: SprintTest['timing_method'] = 'touch_pad_beam') => {
    const { sprint_test_id: _, athlete_id: __, ...test } = timed([10, 20, 30], timing_method);
    const splits = test.splits.map((split) => ({ ...split, split_time_s: split.split_time_s + slower_s }));
    return addSprintTest(store, { ...test, athlete_id, date, time_s: test.time_s + slower_s, splits }).sprint_test_id;
  };
  run('2026-03-01', 0.05);
  const first = run('2026-03-01', 0);
  const second = run('2026-03-15', 0.02);
  const other = run('2026-03-15', 0.02, 'beam');
  const { accelerations } = sprintTestView(store, athlete_id, '2026-03-16');
  expect(accelerations.map((one) => one.sprint_test_id).sort()).toEqual([first, second, other].sort());
  const keys = new Map(accelerations.map((one) => [one.sprint_test_id, one.series_key]));
  expect(keys.get(first)).toBe(keys.get(second));
  expect(keys.get(other)).not.toBe(keys.get(second));
});
