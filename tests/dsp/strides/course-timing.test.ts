/** Times against clocks that start with something else than the movement. Rows are made from the curve itself. */
import { wordsOf } from '../../helpers/told.ts';
import { describe, expect, test } from 'vitest';
import { distanceAt, fitSprintCurve, type SprintCurve, timeAtDistance } from '../../../dsp/fit/index.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import { fillStrides } from '../../../dsp/strides/index.ts';
import { type Course, UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import { normal } from '../../helpers/random.ts';
import { contactRows } from '../../helpers/contact-rows.ts';

const CURVE: SprintCurve = { vmax_mps: 8.8, tau_s: 1.25 };
const START_S = 2;
const DISTANCES = [5, 10, 20, 30];

/** Contacts of a sprint over 30 m, the first 0.4 s after the movement. */
const ROWS = Array.from({ length: 22 }, (_, i) => {
  const touchdown_s = START_S + 0.4 + 0.23 * i;
  const side = i % 2 === 0 ? ('left' as const) : ('right' as const);
  return { side, touchdown_s, toe_off_s: touchdown_s + 0.2 * (0.4 + 0.23 * i + 0.2) ** -0.4 };
});

/**
 * The course as a clock shows it that starts `shift_s` after the movement; a gate counts distance from where it stands.
 */
function course(clock: Course['clock'], shift_s: number, splits = DISTANCES): Course {
  const run_m = clock === 'gate' ? distanceAt(CURVE, shift_s) : 0;
  const at = (d: number): number => timeAtDistance(CURVE, d + run_m) - shift_s;
  return {
    ...UNKNOWN_COURSE,
    clock,
    distance_m: 30,
    time_s: at(30),
    splits: splits.filter((d) => d < 30).map((d) => ({ distance_m: d, split_time_s: at(d) })),
    timing_method: 'beam',
  };
}

function run(of: Course, first_movement_s: number | null = START_S) {
  const rows = contactRows(ROWS);
  const result = fillStrides(rows, {
    sensors: [],
    travel: 'overground',
    first_movement_s,
    first_movement_s_u: 0.02,
    course: of,
    conditions: UNKNOWN_CONDITIONS,
    settings: DEFAULT_SETTINGS.strides,
  });
  let [steps, worst_cm, worst_share] = [0, 0, 0];
  rows.forEach((row, i) => {
    if (row.step_length_m === null) return;
    const at = (k: number): number => distanceAt(CURVE, ROWS[k].touchdown_s - START_S);
    const error = Math.abs(row.step_length_m - (at(i + 1) - at(i)));
    steps++;
    worst_cm = Math.max(worst_cm, 100 * error);
    worst_share = Math.max(worst_share, error / row.step_length_m_u!);
  });
  return { rows, result, worst_cm, worst_share, steps };
}

describe('clocks', () => {
  test.each<[Course['clock'], number, number]>([
    ['first_movement', 0, 1],
    ['gun', -0.15, 2],
    // Two SDs from what is usual: four beams within 30 m cannot tell all of it.
    ['gun', -0.25, 7],
    ['gate', 0.2, 3],
    ['gate', 0.45, 5],
  ])(
    '%s, zero %d s after the movement: every step within %d cm and its stated uncertainty',
    (clock, shift, limit_cm) => {
      const { result, worst_cm, worst_share, steps } = run(course(clock, shift));
      expect(steps).toBeGreaterThan(15);
      expect(worst_cm).toBeLessThan(limit_cm);
      expect(worst_share).toBeLessThan(1.96);
      const { time_shift_s, time_shift_s_u } = result.speed_curve!;
      expect(Math.abs(time_shift_s - shift)).toBeLessThan(2 * time_shift_s_u + 1e-6);
    },
  );

  test('a movement clock that started late is not believed against four times', () => {
    const { result, worst_cm } = run(course('first_movement', 0.2));
    expect(Math.abs(result.speed_curve!.time_shift_s - 0.2)).toBeLessThan(0.03);
    expect(worst_cm).toBeLessThan(3);
  });

  test('with one time the prior of the clock stands, and the uncertainty is wider', () => {
    const many = run(course('gun', -0.17));
    const one = run(course('gun', -0.17, []));
    expect(one.result.speed_curve!.from).toBe('time and steps');
    expect(one.rows[5].step_length_m_u!).toBeGreaterThan(many.rows[5].step_length_m_u!);
    expect(wordsOf(one.rows[5].reasons.step_length_m_u)).toContain('one time only');
    expect(Math.abs(one.result.speed_curve!.vmax_mps - CURVE.vmax_mps)).toBeLessThan(
      2 * one.result.speed_curve!.vmax_mps_u,
    );
  });

  test('an unseen first movement is said, and costs certainty of place', () => {
    const { rows } = run(course('first_movement', 0), null);
    expect(wordsOf(rows[3].reasons.step_length_m_u)).toContain('first movement was not seen');
    expect(rows[3].distance_m_u!).toBeGreaterThan(0.3);
  });
});

describe('times that cannot be', () => {
  test('an impossible speed is refused with a reason', () => {
    const { rows, result } = run({ ...course('first_movement', 0, []), time_s: 1.5 });
    expect(result.speed_curve).toBeNull();
    expect(wordsOf(result.reasons.step_length_m)).toContain('check them');
    expect(rows.every((row) => row.step_length_m === null)).toBe(true);
  });

  test('times of a longer run are doubted', () => {
    const { rows } = run({ ...course('first_movement', 0, []), distance_m: 60, time_s: timeAtDistance(CURVE, 60) });
    expect(wordsOf(rows[3].reasons.step_length_m_u)).toContain('ends before the course');
  });
});

test('a flying course gives its mean speed to the steps in it, and to no other', () => {
  const flying: Course = { ...UNKNOWN_COURSE, distance_m: 10, time_s: 1.15, start_style: 'flying', clock: 'gate' };
  const { rows, result } = run(flying);
  const inside = rows.filter((row) => row.speed_mps !== null);
  expect(inside.length).toBeGreaterThanOrEqual(4);
  expect(inside.length).toBeLessThanOrEqual(6);
  for (const row of inside) expect(row.speed_mps).toBeCloseTo(10 / 1.15, 9);
  expect(wordsOf(rows[0].reasons.step_length_m)).toBe('outside the timed stretch');
  expect(result.speed_curve).toBeNull();
});

describe('uncertainty of the curve', () => {
  test.each([
    { distances: [10, 20, 30, 40], shift_u: 0 },
    { distances: [5, 10, 15, 20, 30, 40], shift_u: 0.05 },
  ])('intervals of vmax and tau hold the truth in about 95 % of sprints: $distances m', ({ distances, shift_u }) => {
    const z = normal(4);
    let [vmax, tau] = [0, 0];
    const sprints = 250;
    for (let k = 0; k < sprints; k++) {
      const shift = shift_u * z();
      const times = distances.map((distance_m) => ({
        distance_m,
        time_s: timeAtDistance(CURVE, distance_m) - shift + 0.01 * z(),
        time_s_u: 0.01,
      }));
      const fit = fitSprintCurve(times, { time_shift: { value: 0, u: shift_u } })!;
      if (Math.abs(fit.vmax_mps - CURVE.vmax_mps) < 1.96 * Math.sqrt(fit.covariance[0][0])) vmax++;
      if (Math.abs(fit.tau_s - CURVE.tau_s) < 1.96 * Math.sqrt(fit.covariance[1][1])) tau++;
    }
    for (const covered of [vmax / sprints, tau / sprints]) {
      expect(covered).toBeGreaterThan(0.91);
      expect(covered).toBeLessThan(0.985);
    }
  });
});

test.each([
  // 10 m in 0.5 s; 30 m in 12 s, longer than all running in the recording.
  ['that nobody runs', 10, 0.5, true],
  ['longer than the run', 30, 12, false],
])('a flying time %s is not taken for a sprint from rest', (_, distance_m, time_s, impossible) => {
  const { rows, result } = run({ ...UNKNOWN_COURSE, distance_m, time_s, start_style: 'flying', clock: 'gate' });
  expect(result.speed_curve).toBeNull();
  expect(rows.every((row) => row.speed_mps === null)).toBe(true);
  expect(wordsOf(result.reasons.step_length_m)).toContain('flying');
  expect(result.faults.map(({ code }) => code)).toEqual(impossible ? ['TIMES_IMPOSSIBLE'] : []);
});
