/**
 * From the plan of one foot's plants to the course of its ankle, foot and shank in time: contact dynamics on the ground
 * (foot-contact.ts), a minimum-jerk swing of the hip-knee-ankle chain in the air (swing-leg.ts). Everything is sampled at one
 * internal rate; x forward, y left, z up; pitch about +y, so that heel up (foot) and knee forward (shank) are positive.
 */
import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import type { Random } from '../random.ts';
import { bodyLoad, contactMechanics, touchdownState } from './contact-course.ts';
import { type ContactRun, footShape, runContact, soleDepth } from './foot-contact.ts';
import { drawGait, type Gait } from './gait.ts';
import { AFTER_S, pitchCourse } from './pitch-course.ts';
import type { Plant, Travel } from './step-ground.ts';
import type { Runner } from './runner.ts';
import { stanceShank, standingShank } from './shank-course.ts';
import { SideMotion } from './side-motion.ts';
import { SoftTissue } from './soft-tissue.ts';
import { type Swing, type SwingStart, swingLeg } from './swing-leg.ts';

export interface LegMotion {
  start_s: number;
  rate_hz: number;
  /** Ankle in the world, metres. */
  x: Float64Array;
  y: Float64Array;
  z: Float64Array;
  /** Shank's lower end against the ankle: heel pad, ankle and knee soften the blow on its way up, metres. */
  shank_give_x: Float64Array;
  shank_give_z: Float64Array;
  /** Angles, radians. */
  foot_pitch: Float64Array;
  foot_roll: Float64Array;
  foot_yaw: Float64Array;
  shank_pitch: Float64Array;
  shank_roll: Float64Array;
  shank_yaw: Float64Array;
  /** Vertical ground force, N. */
  force_n: Float64Array;
}

const COLUMNS = [
  ...(['x', 'y', 'z', 'shank_give_x', 'shank_give_z', 'force_n'] as const),
  ...(['foot_pitch', 'foot_roll', 'foot_yaw', 'shank_pitch', 'shank_roll', 'shank_yaw'] as const),
];

/**
 * @param plants this foot's plants in time order; the first one must already be on the ground at `start_s`
 * @param rate_hz internal rate
 */
export function moveLeg(
  runner: Runner,
  plants: Plant[],
  travel: Travel,
  start_s: number,
  end_s: number,
  rate_hz: number,
  random: Random,
): LegMotion {
  const n = Math.floor((end_s - start_s) * rate_hz);
  const dt = 1 / rate_hz;
  const motion = { start_s, rate_hz } as LegMotion;
  for (const column of COLUMNS) motion[column] = new Float64Array(n);
  const { side } = plants[0];
  const gaits = plants.map((plant) => gaitOf(runner, plant, random));
  const tissue = new SoftTissue(runner, side, n, dt, random);
  const sides = new SideMotion(runner, side);
  let last: SwingStart | null = null;
  for (let k = 0; k < plants.length; k++) {
    const plant = plants[k];
    const gait = gaits[k];
    const begin = Math.round((plant.touchdown_s - start_s) * rate_hz);
    const began_s = start_s + begin * dt;
    const state = touchdownState(footShape(runner.stature_m), plant, gait);
    if (last) writeSwing(motion, runner, swingLeg(runner, travel, last, { state, time_s: began_s, gait, plant }, dt));
    if (begin >= n) break;
    const mechanics = contactMechanics(runner, plant.speed_mps, plant.gain);
    const pitch = pitchCourse(gait, { ...plant, touchdown_s: began_s });
    const brief = Math.min(0.4, plant.toe_off_s - began_s);
    const run = runContact(
      footShape(runner.stature_m),
      mechanics,
      {
        touchdown_s: began_s,
        toe_off_s: plant.toe_off_s,
        pitch,
        load: bodyLoad(runner, plant, plants[k + 1]?.kind === 'run'),
        lift_mps2: runner.pick_up * 5 * Math.min(9, gait.pace_mps),
        pull_mps2: runner.pick_up * 6 * Math.min(9, gait.pace_mps),
        pick_up_lead_s: runner.pick_up_lead_share * brief,
        pick_up_end_s: 0.065 * brief,
      },
      state,
      began_s,
      dt,
      end_s,
    );
    const off = Math.min(plant.toe_off_s, end_s + 1);
    const shank =
      plant.kind === 'stand' ? standingShank(gait, began_s, plant.toe_off_s) : stanceShank(gait, began_s, off);
    last = { run, plant, gait, pitch, shank };
    writeContact(motion, last, begin, off);
    tissue.addContact(run, begin, mechanics.effective_mass_kg);
    sides.addContact(plant, gait, began_s, off, plants[k + 1]?.touchdown_s ?? off + 0.5);
    if (plant.toe_off_s === Number.POSITIVE_INFINITY) break;
  }
  writeSmallMotion(motion, tissue, sides.courses(start_s, end_s));
  return motion;
}

/** The gait of a plant; standing and hopping land and leave in their own way. */
function gaitOf(runner: Runner, plant: Plant, random: Random): Gait {
  const gait = drawGait(runner, Math.max(plant.speed_mps, 0.8), plant.gain, random);
  if (plant.kind === 'hop') {
    // Lands on the ball of the foot with the speed of the fall, takes off with the foot pointed.
    const sink = 0.5 * STANDARD_GRAVITY_MPS2 * plant.flight_s;
    gait.touchdown = { pitch: 0.22, pitch_rate: 1, shank: 0.1, shank_rate: 1.5, sink, slip: 0 };
    gait.toe_off = { pitch: 0.55, pitch_rate: 7, shank: 0.2, shank_rate: -0.5 };
    gait.push_off = null;
  }
  if (plant.kind === 'stand') {
    if (plant.speed_mps === 0) {
      gait.touchdown = { pitch: 0, pitch_rate: 0, shank: 0.08, shank_rate: 0, sink: 0, slip: 0 };
    }
    gait.toe_off.shank = 0.9;
    gait.toe_off.shank_rate = 1.5;
    gait.toe_off.pitch = Math.max(gait.toe_off.pitch, 0.95);
    gait.toe_off.pitch_rate = 8;
    gait.push_off = null;
  }
  return gait;
}

function writeContact(
  motion: LegMotion,
  contact: { run: ContactRun; shank: SwingStart['shank'] },
  begin: number,
  off: number,
): void {
  contact.run.states.forEach((state, j) => {
    const i = begin + j;
    if (i < 0 || i >= motion.x.length) return;
    motion.x[i] = state.x;
    motion.z[i] = state.z;
    motion.foot_pitch[i] = state.pitch;
    motion.shank_pitch[i] = contact.shank(Math.min(motion.start_s + i / motion.rate_hz, off + AFTER_S)).value;
    motion.force_n[i] = contact.run.force_n[j];
  });
}

/** Toes must clear the ground: where the chain would scrape, the ankle is carried higher. */
function writeSwing(motion: LegMotion, runner: Runner, swing: Swing): void {
  const shape = footShape(runner.stature_m);
  const index = (t: number) => Math.round((t - motion.start_s) * motion.rate_hz);
  const from = Math.max(0, index(swing.from_s) + 1);
  const to = Math.min(motion.x.length, index(swing.to_s));
  const time = (i: number) => motion.start_s + i / motion.rate_hz;
  for (let i = from; i < to; i++) {
    motion.x[i] = swing.x(time(i)).value;
    motion.foot_pitch[i] = swing.pitch(time(i)).value;
    motion.shank_pitch[i] = swing.shank(time(i)).value;
  }
  let lift = swing.lift_m;
  for (let attempt = 0; attempt < 6; attempt++) {
    const height = swing.height(lift);
    let clearance = 1;
    for (let i = from; i < to; i++) {
      motion.z[i] = height(time(i)).value;
      clearance = Math.min(clearance, motion.z[i] - soleDepth(shape, motion.foot_pitch[i]));
    }
    if (clearance > -0.001) return;
    lift += 0.015 - clearance;
  }
}

function writeSmallMotion(motion: LegMotion, tissue: SoftTissue, courses: ReturnType<SideMotion['courses']>): void {
  let i = 0;
  for (const ring of tissue.states()) {
    const t = motion.start_s + i / motion.rate_hz;
    const roll = courses.roll(t);
    const yaw = courses.yaw(t);
    motion.shank_give_x[i] = ring.give_x;
    motion.shank_give_z[i] = ring.give_z;
    motion.foot_roll[i] = roll + ring.roll;
    motion.foot_yaw[i] = yaw;
    motion.shank_roll[i] = 0.5 * roll + 0.3 * ring.roll;
    motion.shank_yaw[i] = 0.7 * yaw + 0.25 * roll;
    motion.shank_pitch[i] += ring.shank;
    motion.y[i] = courses.sway(t);
    i++;
  }
}
