import type { SensorModel } from '../../../seeds/sensor/sensor-model.ts';
import { gateCases, otherActivityCases, paintedCases, sprintCases, steadyCases } from './simulated-cases.ts';
import type { ValidationCase } from './validation-case.ts';

/** Ranges that sprinting needs. */
const GOOD = { acc_range_g: 200, gyr_range_dps: 4000 };

/** Simulated sprints that the variants are made of. */
export const SPRINTS = 'sprints, 1000 Hz';

/** Sprints by the kind of sensor; the first three are sensors made for sprinting, which the targets are for. */
const SPRINT_SETS: { set: string; sensor: Partial<SensorModel>; first: number; count: number; quick: number }[] = [
  { set: SPRINTS, sensor: { rate_hz: 1000, ...GOOD }, first: 1, count: 12, quick: 4 },
  { set: 'sprints, 500 Hz', sensor: { rate_hz: 500, ...GOOD }, first: 101, count: 12, quick: 2 },
  { set: 'sprints, 400 Hz', sensor: { rate_hz: 400, ...GOOD }, first: 201, count: 6, quick: 0 },
  {
    set: '1000 Hz, 16 g, 2000 deg/s',
    sensor: { rate_hz: 1000, acc_range_g: 16, gyr_range_dps: 2000 },
    first: 301,
    count: 6,
    quick: 0,
  },
  {
    set: '500 Hz, loose strap (28 Hz)',
    sensor: { rate_hz: 500, strap_hz: 28, strap_damping: 0.15 },
    first: 601,
    count: 6,
    quick: 0,
  },
  {
    set: '500 Hz, gyroscope to 1000 deg/s',
    sensor: { rate_hz: 500, gyr_range_dps: 1000 },
    first: 701,
    count: 6,
    quick: 0,
  },
  {
    set: '500 Hz, jitter 0.8 ms, 2 % lost',
    sensor: { rate_hz: 500, stamp_jitter_s: 0.0008, lost_share: 0.02 },
    first: 801,
    count: 6,
    quick: 0,
  },
];

/** Sprints off the exponential: what the interval of step length from two gates is judged by. */
export const GATE_SET = '500 Hz, speed off the curve';

export const GOOD_SETS = SPRINT_SETS.slice(0, 3).map(({ set }) => set);

export const range = (from: number, count: number) => Array.from({ length: count }, (_, i) => from + i);

/** Every simulated case of the report, made one after the other. */
export function* simulatedCases(quick: boolean): Generator<ValidationCase> {
  for (const { set, sensor, first, count, quick: few } of SPRINT_SETS) {
    yield* sprintCases(range(first, quick ? few : count), sensor, set);
  }
  yield* gateCases(range(901, quick ? 2 : 16), { rate_hz: 500, ...GOOD }, GATE_SET);
  for (const i of range(0, quick ? 2 : 6)) {
    const effort = [0.5, 0.75, 0.6][i % 3];
    const repetitions = [{ effort, distance_m: 50 }];
    yield* sprintCases([401 + i], { rate_hz: 500 }, '50 to 75 % speed, 500 Hz', { repetitions });
  }
  yield* steadyCases(range(0, quick ? 3 : 12), { rate_hz: 500, ...GOOD });
  yield* paintedCases(range(1, quick ? 3 : 12), { rate_hz: 1000, ...GOOD });
  yield* otherActivityCases(range(1, quick ? 1 : 4), { rate_hz: 500, ...GOOD });
}
