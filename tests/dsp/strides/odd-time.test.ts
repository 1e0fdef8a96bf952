/** One wrong time among several, without any sensor on a foot: singled out by the others, or told that they do not fit. */
import { describe, expect, test } from 'vitest';
import { distanceAt, timeAtDistance } from '../../../dsp/fit/index.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import { fillStrides } from '../../../dsp/strides/index.ts';
import { timesTogether } from '../../../dsp/strides/odd-time.ts';
import { type Course, UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import { contactRows } from '../../helpers/contact-rows.ts';
import { normal, uniform } from '../../helpers/random.ts';
import { readReference } from '../../helpers/read-reference.ts';
import { told } from '../../helpers/told.ts';

const settings = DEFAULT_SETTINGS.strides;
const course = (distances: number[], times: number[], clock: Course['clock']): Course => ({
  ...UNKNOWN_COURSE,
  clock,
  timing_method: 'beam',
  distance_m: distances[distances.length - 1],
  time_s: times[times.length - 1],
  splits: distances.slice(0, -1).map((distance_m, i) => ({ distance_m, split_time_s: times[i] })),
});

const berlin = readReference('berlin2009_bolt_splits.csv');
describe.skipIf(berlin === null)('splits of a published race (skipped without the reference folder)', () => {
  // Graubner and Nixdorf 2011, New Studies in Athletics 26:19-53: 10 m times of the 100 m final of Berlin 2009.
  const [distances, times] = berlin ? [berlin.distance_m, berlin.cumulative_time_s] : [[], []];

  test.each([4, 5, 6, 7, 8, 9, 10])('the first %i agree with each other', (n) => {
    expect(timesTogether(course(distances.slice(0, n), times.slice(0, n), 'gun'), settings).kind).toBe('agree');
  });

  // The nearest one is hardly told from a clock that started late.
  test.each([1, 2, 3, 4, 5])(
    'of six, the one at place %i is singled out where it is 0.3 s off, and put right to 0.05 s',
    (at) => {
      for (const off of [-0.3, 0.3]) {
        const wrong = times.slice(0, 6).map((time, i) => (i === at ? time + off : time));
        const found = timesTogether(course(distances.slice(0, 6), wrong, 'gun'), settings);
        if (found.kind !== 'one_off') throw new Error(found.kind);
        expect(found.time.distance_m).toBe(distances[at]);
        expect(Math.abs(found.time.by_others_s - times[at])).toBeLessThan(0.05);
      }
    },
  );
});

/** Times of invented runs as gates show them: to the hundredth, with the errors of beams and of the curve. */
function verdicts(off_s: number, runs: number) {
  const [z, random] = [normal(7), uniform(11)];
  const counts = { agree: 0, apart: 0, right: 0, wrong: 0 };
  for (let k = 0; k < runs; k++) {
    const curve = { vmax_mps: 7 + 3 * random(), tau_s: 1 + 0.6 * random() };
    const clock = (['first_movement', 'gun', 'gate'] as const)[k % 3];
    const shift = { first_movement: 0.02 * z(), gun: -0.17 + 0.04 * z(), gate: 0.3 + 0.1 * z() }[clock];
    const run_m = clock === 'gate' ? distanceAt(curve, shift) : 0;
    const distances = [
      [10, 20, 30, 40],
      [5, 10, 20, 30, 40],
      [10, 20, 30, 40, 50, 60],
    ][Math.floor(3 * random())];
    const at = Math.floor(distances.length * random());
    const times = distances.map((d, i) => {
      const time = timeAtDistance(curve, d + run_m) - shift + 0.015 * z() + 0.01 * z();
      return Number((time + (i === at ? off_s * (k % 2 ? 1 : -1) : 0)).toFixed(2));
    });
    if (times.some((time, i) => i > 0 && time <= times[i - 1])) continue;
    const found = timesTogether(course(distances, times, clock), settings);
    if (found.kind === 'one_off') counts[found.time.distance_m === distances[at] ? 'right' : 'wrong']++;
    else counts[found.kind]++;
  }
  return counts;
}

test('of 300 runs without a wrong time hardly any is doubted; of those with one 0.5 s off nearly all are, and never a true time is blamed in 50', () => {
  const good = verdicts(0, 300);
  expect(good.agree).toBeGreaterThanOrEqual(297);
  const bad = verdicts(0.5, 300);
  const judged = bad.right + bad.wrong + bad.apart + bad.agree;
  expect(bad.agree).toBeLessThan(0.03 * judged);
  expect(bad.right).toBeGreaterThan(0.5 * judged);
  expect(bad.wrong).toBeLessThan(0.02 * (bad.right + bad.wrong));
});

describe('a repetition with sensors that tell no stride', () => {
  const curve = { vmax_mps: 8.8, tau_s: 1.25 };
  const distances = [5, 10, 20, 30, 40];
  const times = distances.map((d) => timeAtDistance(curve, d));
  const instants = Array.from({ length: 26 }, (_, i) => {
    const touchdown_s = 2.4 + 0.23 * i;
    const side = i % 2 === 0 ? ('left' as const) : ('right' as const);
    return { side, touchdown_s, toe_off_s: touchdown_s + 0.2 * (0.6 + 0.23 * i) ** -0.4 };
  });
  const analysed = (of: Course) => {
    const rows = contactRows(instants);
    const result = fillStrides(rows, {
      sensors: [],
      travel: 'overground',
      first_movement_s: 2,
      first_movement_s_u: 0.02,
      course: of,
      conditions: UNKNOWN_CONDITIONS,
      settings,
    });
    return { rows, ...result };
  };

  test('is measured by the other times where one is wrong, and says which and what it should be', () => {
    const wrong = times.map((time, i) => (i === 2 ? time + 0.4 : time));
    const { speed_curve, faults } = analysed(course(distances, wrong, 'first_movement'));
    expect(faults.map(({ code }) => code)).toEqual(['TIMES_DOUBTED']);
    expect(told(faults[0]).message).toMatch(/20 m in .* does not fit the others/);
    expect(told(faults[0]).message).toContain(`${times[2].toFixed(2)} ±`);
    expect(Math.abs(speed_curve!.vmax_mps - curve.vmax_mps)).toBeLessThan(1.96 * speed_curve!.vmax_mps_u);
  });

  test('says that times do not fit where nobody can tell which is wrong, and is the less certain', () => {
    const mixed = times.map((time, i) => time + [0, 0.25, -0.25, 0.3, 0][i]);
    const doubted = analysed(course(distances, mixed, 'gate'));
    const good = analysed(course(distances, times, 'gate'));
    expect(doubted.faults.map((fault) => told(fault).message).join()).toContain('do not fit one run');
    expect(good.faults).toEqual([]);
    expect(doubted.speed_curve!.vmax_mps_u).toBeGreaterThan(2 * good.speed_curve!.vmax_mps_u);
  });
});
