/**
 * What must never count as a step of a repetition: standing, walking, jumping on the spot, hopping, a dropped sensor.
 * Made by the same legs and sensors as the repetitions.
 */
import type { SampleBlock } from '../shared/sample-block.ts';
import type { Mounting } from '../shared/words.ts';
import { segmentOf } from './generate-repetition.ts';
import { drawSensor } from './sensor/draw-sensor.ts';
import { type LegMotion, moveLeg } from './motion/leg-motion.ts';
import { StepPlanner } from './motion/plan-repetition.ts';
import { drawRunner } from './motion/runner.ts';
import { makeRandom, type Random } from './random.ts';
import { readSensor, type SegmentMotion, type SensorModel } from './sensor/sensor-model.ts';

export const OTHER_ACTIVITIES = ['standing', 'walking', 'jumping', 'hopping', 'dropped'] as const;
export type OtherActivityKind = (typeof OTHER_ACTIVITIES)[number];

export interface OtherActivityRecording {
  sensors: Record<Mounting, { left: SampleBlock; right: SampleBlock }>;
}

const RATE_HZ = 4000;
const GRAVITY = 9.80665;
const SETTLE_S = 0.7;

/** @param seed any integer; the same seed gives the same bytes */
export function generateOtherActivity(
  kind: OtherActivityKind,
  seed: number,
  sensor: Partial<SensorModel> = {},
): OtherActivityRecording {
  const random = makeRandom(seed).fork(kind);
  const motions = kind === 'dropped' ? dropped(random) : moved(kind, random);
  const sensors = {} as OtherActivityRecording['sensors'];
  for (const mounting of ['foot', 'shank'] as const) {
    sensors[mounting] = {} as { left: SampleBlock; right: SampleBlock };
    for (const side of ['left', 'right'] as const) {
      const chance = random.fork(`${mounting} ${side}`);
      const motion = motions(mounting, side);
      const end = motion.start_s + motion.x.length / motion.rate_hz - 0.05;
      sensors[mounting][side] = readSensor(motion, drawSensor(mounting, chance, sensor), end, chance);
    }
  }
  return { sensors };
}

type MotionOf = (mounting: Mounting, side: 'left' | 'right') => SegmentMotion;

function moved(kind: Exclude<OtherActivityKind, 'dropped'>, random: Random): MotionOf {
  const runner = drawRunner(random.fork('runner'));
  const planner = new StepPlanner(runner, random.fork('plan'), -SETTLE_S);
  planner.stand(SETTLE_S + 2, 'left', 0.15);
  if (kind === 'standing') planner.stand(8, 'left', 0.15);
  if (kind === 'walking') planner.walk(16, random.uniform(1.1, 1.7));
  if (kind === 'jumping') planner.jump(8, random.uniform(0.24, 0.34), random.uniform(0.3, 0.5), ['left', 'right']);
  if (kind === 'hopping') planner.jump(10, random.uniform(0.22, 0.32), random.uniform(0.15, 0.3), ['left']);
  planner.stand(1.5, 'left', 0.15);
  const legs = {} as Record<'left' | 'right', LegMotion>;
  for (const side of ['left', 'right'] as const) {
    const plants = planner.plants.filter((plant) => plant.side === side);
    legs[side] = moveLeg(runner, plants, planner.travel, -SETTLE_S, planner.now_s, RATE_HZ, random.fork(side));
  }
  if (kind === 'hopping') carry(legs.left, legs.right);
  return (mounting, side) => segmentOf(legs[side], mounting);
}

/** The foot that is held up rides on the body, which goes up and down with the hopping one. */
function carry(hopping: LegMotion, held: LegMotion): void {
  let slow = hopping.z[0];
  for (let i = 0; i < held.z.length; i++) {
    slow += (hopping.z[i] - slow) / (0.05 * held.rate_hz);
    held.z[i] = slow + 0.2;
    held.x[i] = hopping.x[i] - 0.25;
    held.foot_pitch[i] = 0.7;
    held.shank_pitch[i] = 1;
    held.foot_roll[i] = 0;
    held.shank_roll[i] = 0;
    held.shank_give_x[i] = 0;
    held.shank_give_z[i] = 0;
  }
}

/** Lies still, falls from the hand, bounces three times while tumbling, lies still. */
function dropped(random: Random): MotionOf {
  const make = (): SegmentMotion => {
    const n = 8 * RATE_HZ;
    const column = () => new Float64Array(n);
    const motion = {
      start_s: 0,
      rate_hz: RATE_HZ,
      x: column(),
      y: column(),
      z: column(),
      roll: column(),
      pitch: column(),
      yaw: column(),
    };
    const fall = random.uniform(2, 3);
    let height = random.uniform(0.6, 1.2);
    let velocity = 0;
    let turning = [random.normal(0, 2), random.normal(0, 2)];
    for (let i = 1; i < n; i++) {
      const free = i / RATE_HZ > fall && height > 0;
      if (free) velocity -= GRAVITY / RATE_HZ;
      // The floor pushes back within a few milliseconds and gives a third of the speed back.
      if (height < 0.01 && velocity < 0 && i / RATE_HZ > fall) {
        velocity *= -0.35;
        turning = velocity < 0.3 ? [0, 0] : turning.map(() => random.normal(0, 12));
        if (velocity < 0.3) velocity = 0;
      }
      if (i / RATE_HZ > fall) {
        height = velocity === 0 ? Math.max(0, height) : height + velocity / RATE_HZ;
        if (velocity === 0) height = Math.min(height, 0);
      }
      motion.z[i] = height;
      motion.pitch[i] = motion.pitch[i - 1] + (i / RATE_HZ > fall ? turning[0] : 0) / RATE_HZ;
      motion.roll[i] = motion.roll[i - 1] + (i / RATE_HZ > fall ? turning[1] : 0) / RATE_HZ;
    }
    motion.z[0] = motion.z[1];
    smooth(motion.z, 12);
    smooth(motion.pitch, 12);
    smooth(motion.roll, 12);
    return motion;
  };
  const made = { left: make(), right: make() };
  return (_mounting, side) => made[side];
}

/** Three passes of a running mean: rounds the corners of an impact to a few milliseconds. */
function smooth(column: Float64Array, half: number): void {
  for (let pass = 0; pass < 3; pass++) {
    const sums = new Float64Array(column.length + 1);
    for (let i = 0; i < column.length; i++) sums[i + 1] = sums[i] + column[i];
    for (let i = 0; i < column.length; i++) {
      const a = Math.max(0, i - half);
      const b = Math.min(column.length, i + half + 1);
      column[i] = (sums[b] - sums[a]) / (b - a);
    }
  }
}
