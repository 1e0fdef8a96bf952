/** Times that contradict each other or cannot be of the run: said, left out, and nothing else lost. */
import { contradictingTimes } from '../../../dsp/strides/check-times.ts';
import { STRIDE_SETTINGS } from '../../../dsp/settings/strides.ts';
import { told } from '../../helpers/told.ts';
import { describe, expect, test } from 'vitest';
import { analyse } from '../../../dsp/analyse.ts';
import { generateRepetition } from '../../../seeds/generate-repetition.ts';
import { type Course, UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { Mounting } from '../../../shared/words.ts';

const COURSE_M = 30;
const HALF_M = 15;

const made = generateRepetition({
  seed: 2301,
  runner: { full_speed_mps: 8 },
  repetitions: [{ distance_m: COURSE_M }],
  split_distances_m: [HALF_M],
  sensor: { rate_hz: 500, acc_range_g: 200, gyr_range_dps: 4000 },
  internal_rate_hz: 2000,
});
const [truth] = made.truth.repetitions;
const [half_s, whole_s] = [truth.splits[0].split_time_s, truth.time_s!];

const GOOD: Course = {
  ...UNKNOWN_COURSE,
  distance_m: COURSE_M,
  time_s: whole_s,
  splits: [{ distance_m: HALF_M, split_time_s: half_s }],
  timing_method: 'beam',
  start_style: 'standing',
};

function analysed(course: Course, mounting: Mounting) {
  const sensors = (['left', 'right'] as const).map((side) => ({
    side,
    mounting,
    samples: made.sensors[mounting][side],
    clock_offset_s: 0,
    clock_drift: 0,
    clock_offset_u_s: 0,
  }));
  const { faults, ...rest } = analyse({ sensors, course, conditions: UNKNOWN_CONDITIONS });
  // The sensors on the shanks miss the second contact of this run, which is told whatever the times are.
  return { ...rest, faults: faults.filter(({ code }) => code !== 'CONTACTS_MISSED') };
}

const WRONG: [string, Course, string, RegExp][] = [
  [
    'a split after the finish',
    { ...GOOD, splits: [{ distance_m: HALF_M, split_time_s: whole_s + 0.3 }] },
    'TIMES_NOT_INCREASING',
    /30 m after/,
  ],
  [
    'two times at the line',
    { ...GOOD, splits: [...GOOD.splits, { distance_m: COURSE_M, split_time_s: whole_s - 0.4 }] },
    'TIMES_NOT_INCREASING',
    /30 m was reached/,
  ],
  ['half the time', { ...GOOD, splits: [], time_s: 0.5 * whole_s }, 'TIMES_IMPOSSIBLE', /would mean/],
  ['twice the time', { ...GOOD, splits: [], time_s: 2 * whole_s }, 'TIMES_IMPOSSIBLE', /would mean/],
];

describe.each(['foot', 'shank'] as const)('with the sensor on the %s', (mounting) => {
  const good = analysed(GOOD, mounting);

  test('times that fit raise nothing, and the course ends where it does', () => {
    expect(good.faults).toEqual([]);
    const [repetition] = good.repetitions;
    const line_s = truth.first_movement_s! + whole_s;
    expect(Math.abs(repetition.course_end_s! - line_s)).toBeLessThan(1.96 * repetition.first_movement_s_u!);
  });

  test.each(WRONG)('%s is said, and costs the times only', (_, course, code, words) => {
    const { faults, repetitions } = analysed(course, mounting);
    expect(faults.map((fault) => fault.code)).toEqual([code]);
    expect(told(faults[0]).message).toMatch(words);
    expect(told(faults[0]).hint).not.toBe('');
    const [repetition] = repetitions;
    expect(repetition.contacts.map(({ touchdown_s, toe_off_s }) => [touchdown_s, toe_off_s])).toEqual(
      good.repetitions[0].contacts.map(({ touchdown_s, toe_off_s }) => [touchdown_s, toe_off_s]),
    );
    for (const row of repetition.contacts) {
      // A foot's own strides remain; a shank has none.
      expect(row.spatial_source).toBe(mounting === 'foot' && row.step_length_m !== null ? 'foot_sensor' : null);
    }
  });
});

const TOO_EARLY: Course = { ...GOOD, splits: [{ distance_m: HALF_M, split_time_s: 0.6 * half_s }] };

test('a split that nobody starts fast enough for takes all times with it where the sensors on the shanks cannot say better', () => {
  const { faults, repetitions } = analysed(TOO_EARLY, 'shank');
  expect(faults.map(({ code }) => code)).toEqual(['TIMES_IMPOSSIBLE']);
  expect(told(faults[0]).message).toMatch(/m\/s2/);
  expect(repetitions[0].speed_curve).toBeNull();
});

describe('what the foot sensors say of typed times', () => {
  const seconds = (found: RegExpExecArray | null) => Number(found![1]);

  test('one wrong split is left out by itself, with what the feet suggest; the right time is used', () => {
    const { faults, repetitions } = analysed(TOO_EARLY, 'foot');
    expect(faults.map(({ code }) => code)).toEqual(['TIMES_DOUBTED']);
    const { message } = told(faults[0]);
    expect(Math.abs(seconds(/suggest 15 m in ([\d.]+)/.exec(message)) - half_s)).toBeLessThan(0.1);
    expect(message).toContain('left out');
    expect(repetitions[0].contacts.some(({ spatial_source }) => spatial_source === 'combined')).toBe(true);
    expect(Math.abs(repetitions[0].course_end_s! - truth.first_movement_s! - whole_s)).toBeLessThan(0.1);
  });

  test.each([1.06, 0.94])(
    'a time %s times the true one is used, and told with the time that the feet suggest',
    (wrong) => {
      const { faults } = analysed({ ...GOOD, splits: [], time_s: wrong * whole_s }, 'foot');
      expect(faults.map(({ code }) => code)).toEqual(['TIMES_DOUBTED']);
      const { message } = told(faults[0]);
      expect(Math.abs(seconds(/suggest 30 m in ([\d.]+)/.exec(message)) - whole_s)).toBeLessThan(0.1);
      expect(message).toContain('used as it is');
    },
  );

  test('times that nobody can have run are refused with the times that the feet suggest', () => {
    const { faults } = analysed({ ...GOOD, splits: [], time_s: 1.3 * whole_s }, 'foot');
    expect(faults.map(({ code }) => code)).toEqual(['TIMES_IMPOSSIBLE']);
    const found = /suggest 30 m in ([\d.]+) ± ([\d.]+) s/.exec(told(faults[0]).message)!;
    expect(Math.abs(Number(found[1]) - whole_s)).toBeLessThan(Number(found[2]));
  });
});

test('two gates and the foot sensors find a clock that started late', () => {
  const late = 0.25;
  const { repetitions, faults } = analysed(
    { ...GOOD, time_s: whole_s - late, splits: [{ distance_m: HALF_M, split_time_s: half_s - late }] },
    'foot',
  );
  expect(faults).toEqual([]);
  const { time_shift_s, time_shift_s_u } = repetitions[0].speed_curve!;
  expect(Math.abs(time_shift_s - late)).toBeLessThan(1.96 * time_shift_s_u);
});

describe('contradictingTimes', () => {
  const settings = STRIDE_SETTINGS;
  const splits = (...times: number[]) => times.map((split_time_s, i) => ({ distance_m: 10 * (i + 1), split_time_s }));

  test('takes two distances at the same instant for a contradiction, and a millisecond between them for none', () => {
    const course = (...times: number[]): Course => ({ ...UNKNOWN_COURSE, splits: splits(...times) });
    expect(contradictingTimes(course(2, 3, 3), settings)?.code).toBe('TIMES_NOT_INCREASING');
    expect(contradictingTimes(course(2, 3, 2.999), settings)?.code).toBe('TIMES_NOT_INCREASING');
    expect(contradictingTimes(course(2, 3, 3.001), settings)).toBeNull();
  });
});
