/** Recordings of the second generator as validation cases. Generated data: a second opinion, not outside truth. */
import type { Course } from '../../../shared/analysis.ts';
import { UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { SampleBlock } from '../../../shared/sample-block.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import { otherPlans, partSpeedPlans, sprintPlans } from '../../generators/second/plans.ts';
import { gateTimes, makeRecording, type Plan, type Recording } from '../../generators/second/recording.ts';
import { pairOfSensors, type ReferenceContact, type ValidationCase } from './validation-case.ts';

const PHASES = { acceleration: 'acceleration', maximum: 'maximum speed', slowing: 'slowing' } as const;

/** The set names, in the order of the report; the last one is as from camera markers (50 Hz, 300 samples a second). */
const SECOND_SETS: [set: string, plans: Plan[]][] = [
  ['second generator, sprints', sprintPlans()],
  ['second generator, part speed', partSpeedPlans()],
  ['second generator, two runs and steady', otherPlans()],
  ['second generator, sprints as from markers', sprintPlans(true)],
];

/**
 * @param quick every fifth athlete only
 * @param only part of the names to make
 */
export function* secondGeneratorCases(quick: boolean, only: string): Generator<ValidationCase> {
  for (const [set, plans] of SECOND_SETS) {
    const chosen = quick ? plans.filter((_, i) => i % 10 < 2) : plans;
    for (const plan of chosen) if (plan.name.includes(only)) yield caseOf(set, plan);
  }
}

/** One recording of the second generator with its gates (one run) or without times (several). */
export function caseOf(set: string, plan: Plan): ValidationCase {
  const made = makeRecording(plan);
  return {
    name: plan.name,
    source: 'second generator',
    set,
    mounting: plan.mount,
    rate_hz: made.chip.rate,
    has_gyroscope: true,
    variant: 'as recorded',
    sensors: pairOfSensors(plan.mount, { left: block(made, 'left'), right: block(made, 'right') }),
    course: courseOf(made, plan),
    reference: reference(made),
    reference_covers_all: false,
  };
}

function block(made: Recording, side: 'left' | 'right'): SampleBlock {
  const { time, channels } = made.sensors[side];
  const inSi = (k: number) => channels[k].map((v) => v * (k < 3 ? STANDARD_GRAVITY_MPS2 : RADIANS_PER_DEGREE));
  return {
    start_utc: null,
    sampling_rate_hz: made.chip.rate,
    time_s: time,
    acc_mps2: { x: inSi(0), y: inSi(1), z: inSi(2) },
    gyr_radps: { x: inSi(3), y: inSi(4), z: inSi(5) },
    gaps: [],
    acc_range_mps2: made.chip.accRange * STANDARD_GRAVITY_MPS2,
    gyr_range_radps: made.chip.gyrRange * RADIANS_PER_DEGREE,
  };
}

/** Two gates, at the end of the distance and about half way, on a clock that starts with the first movement. */
function courseOf({ session }: Recording, plan: Plan): Course {
  if (plan.runs.length > 1) return UNKNOWN_COURSE;
  const [{ distance }] = plan.runs;
  const half = distance >= 40 ? 20 : 10;
  const [split_time_s, time_s] = gateTimes(session, 0, [half, distance]);
  return {
    ...UNKNOWN_COURSE,
    distance_m: distance,
    time_s,
    splits: [{ distance_m: half, split_time_s }],
    timing_method: 'beam',
  };
}

/**
 * Running contacts only: not the feet of the start, not walking. A step is the body's way from touchdown to touchdown, a
 * stride the foot’s from place to place (shared/fields.ts); from footprint to footprint differs from a step by some 6 cm here.
 */
function reference({ session }: Recording): ReferenceContact[] {
  const running = session.contacts.filter((contact) => contact.phase in PHASES);
  const body = (t: number): number => session.tracks.s.value(t);
  return running.map((contact, i) => {
    const [next, after] = [running[i + 1], running[i + 2]].map((later) =>
      later?.repetition === contact.repetition ? later : null,
    );
    return {
      side: contact.side,
      touchdown_s: contact.touchdown,
      toe_off_s: contact.toeOff,
      step_length_m: next && body(next.touchdown) - body(contact.touchdown),
      stride_length_m: after && after.s - contact.s,
      speed_mps: contact.speed,
      phase: PHASES[contact.phase as keyof typeof PHASES],
    };
  });
}
