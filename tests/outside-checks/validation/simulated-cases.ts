/** Simulated recordings with known contacts: sprints of many runners, steady running, and what is not running. */
import { generateOtherActivity, OTHER_ACTIVITIES } from '../../../seeds/generate-other-activity.ts';
import {
  type GeneratedRecording,
  type GenerateOptions,
  generateRepetition,
} from '../../../seeds/generate-repetition.ts';
import { paintRunning } from '../../../seeds/paint-running.ts';
import { makeRandom } from '../../../seeds/random.ts';
import type { SensorModel } from '../../../seeds/sensor/sensor-model.ts';
import { UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { Mounting } from '../../../shared/words.ts';
import { pairOfSensors, type Source, type ValidationCase } from './validation-case.ts';

function* casesOf(
  name: string,
  source: Source,
  set: string,
  made: GeneratedRecording,
  distance_m: number | null,
  variant = 'as recorded',
): Generator<ValidationCase> {
  const repetition = made.truth.repetitions[0];
  for (const mounting of Object.keys(made.sensors) as Mounting[]) {
    const blocks = made.sensors[mounting];
    yield {
      name,
      source,
      set,
      mounting,
      rate_hz: blocks.left.sampling_rate_hz,
      has_gyroscope: blocks.left.gyr_radps !== null,
      variant,
      sensors: pairOfSensors(mounting, blocks),
      course: {
        ...UNKNOWN_COURSE,
        distance_m,
        time_s: distance_m === null ? null : repetition.time_s,
        splits: repetition.splits,
        start_style: distance_m === null ? null : 'standing',
        timing_method: distance_m === null ? null : 'beam',
      },
      reference: made.truth.contacts.map((contact) => ({
        ...contact,
        foot_progression_deg: made.runner.toe_out_deg[contact.side],
      })),
      run: repetition,
      reference_covers_all: source !== 'simulated steady',
    };
  }
}

/** Full-speed sprints over 60 m: 7 to 11 m/s, every foot strike, any mounting angle; a sensor of the given kind. */
export function* sprintCases(
  seeds: Iterable<number>,
  sensor: Partial<SensorModel>,
  set = 'sprints',
  more: Partial<GenerateOptions> = {},
): Generator<ValidationCase> {
  for (const seed of seeds) {
    const made = generateRepetition({
      seed,
      runner: { full_speed_mps: 7.2 + ((seed * 0.37) % 3.4) },
      repetitions: [{ distance_m: 60 }],
      split_distances_m: [30],
      sensor,
      ...more,
    });
    const name = `sprint ${seed}: ${made.truth.repetitions[0].top_speed_mps.toFixed(1)} m/s`;
    const cases = casesOf(name, 'simulated sprint', set, made, more.repetitions?.[0].distance_m ?? 60);
    for (const test of cases) yield timedByBeams(test, seed);
  }
}

/** A single beam errs by what the product takes for it: a thigh or an arm before the trunk. */
const SINGLE_BEAM_S = 0.015;

/** The course as beams time it; the same errors for both mountings, since it is one run. */
function timedByBeams(test: ValidationCase, seed: number): ValidationCase {
  const chance = makeRandom(seed).fork('beams');
  const [line_s, ...split_s] = [null, ...test.course.splits].map(() => chance.normal(0, SINGLE_BEAM_S));
  const { course } = test;
  return {
    ...test,
    course: {
      ...course,
      time_s: course.time_s && course.time_s + line_s,
      splits: course.splits.map((split, i) => ({ ...split, split_time_s: split.split_time_s + split_s[i] })),
    },
  };
}

/** Sprints whose speed leaves the exponential by 1 %, as in Berlin 2009 (see the generator). */
export function* gateCases(
  seeds: Iterable<number>,
  sensor: Partial<SensorModel>,
  set: string,
): Generator<ValidationCase> {
  // Of such a sprint there is no true top speed and time constant.
  for (const test of sprintCases(seeds, sensor, set, { speed_waves_share: 0.01 })) yield { ...test, run: undefined };
}

/** Steady running from jog to fast, as on a treadmill. */
export function* steadyCases(seeds: Iterable<number>, sensor: Partial<SensorModel>): Generator<ValidationCase> {
  const speeds = [2.4, 3, 3.7, 4.5, 5.5, 7];
  for (const seed of seeds) {
    const speed_mps = speeds[seed % speeds.length];
    const made = generateRepetition({ seed: 1000 + seed, steady: { speed_mps, duration_s: 15 }, sensor });
    yield* casesOf(`steady ${seed}: ${speed_mps} m/s`, 'simulated steady', 'steady running', made, null);
  }
}

/** Standing, walking, jumping, hopping, a dropped sensor: nothing there may count. */
export function* otherActivityCases(seeds: Iterable<number>, sensor: Partial<SensorModel>): Generator<ValidationCase> {
  for (const kind of OTHER_ACTIVITIES) {
    for (const seed of seeds) {
      const made = generateOtherActivity(kind, seed, sensor);
      for (const mounting of ['foot', 'shank'] as const) {
        yield {
          name: `${kind} ${seed}`,
          source: 'simulated other',
          set: 'other activity',
          mounting,
          rate_hz: made.sensors[mounting].left.sampling_rate_hz,
          has_gyroscope: made.sensors[mounting].left.gyr_radps !== null,
          variant: 'as recorded',
          sensors: pairOfSensors(mounting, made.sensors[mounting]),
          course: UNKNOWN_COURSE,
          reference: [],
          reference_covers_all: true,
        };
      }
    }
  }
}

/** Sprints of another maker, events painted onto curves: for contacts found and scatter, not for bias. */
export function* paintedCases(seeds: Iterable<number>, sensor: Partial<SensorModel>): Generator<ValidationCase> {
  for (const seed of seeds) {
    const speed_mps = 7 + ((seed * 0.53) % 3.5);
    for (const mounting of ['foot', 'shank'] as const) {
      const contact_s = 0.105 * (9.5 / speed_mps) ** 0.83;
      const step_s = contact_s + 0.125;
      const made = paintRunning({ seed, mounting, speed_mps, contact_s, step_s, steps: 24, sensor });
      yield {
        name: `painted ${seed}: ${speed_mps.toFixed(1)} m/s`,
        source: 'painted sprint',
        set: 'painted sprints',
        mounting,
        rate_hz: made.sensors.left.sampling_rate_hz,
        has_gyroscope: made.sensors.left.gyr_radps !== null,
        variant: 'as recorded',
        sensors: pairOfSensors(mounting, made.sensors),
        course: UNKNOWN_COURSE,
        // It starts and ends in full stride, as nobody does: the first and last stride are left out.
        reference: made.contacts.slice(2, -2).map((contact) => ({
          ...contact,
          step_length_m: null,
          stride_length_m: null,
          speed_mps,
        })),
        reference_covers_all: false,
      };
    }
  }
}
