/**
 * From the plan of one foot's plants to the course of its ankle, foot and shank in time: contact dynamics on the ground
 * (foot-contact.ts), a minimum-jerk swing of the hip-knee-ankle chain in the air. Everything is sampled at one internal
 * rate; x forward, y left, z up; pitch about +y, so that heel up (foot) and knee forward (shank) are positive.
 */
import type { Random } from '../random.ts';
import {
  BALL,
  type ContactMechanics,
  type ContactRun,
  type FootShape,
  type FootState,
  footShape,
  runContact,
  soleDepth,
} from './foot-contact.ts';
import { drawGait, type Gait, SWING_SHARES } from './gait.ts';
import { distanceAt, type Plant, type Travel } from './plan-repetition.ts';
import type { Runner } from './runner.ts';
import { joinedPath, minimumJerkPath, type PathState, type SmoothPath } from './smooth-path.ts';

export interface LegMotion {
  start_s: number;
  rate_hz: number;
  /** Ankle in the world, metres. */
  x: Float64Array;
  y: Float64Array;
  z: Float64Array;
  /** Angles, radians. */
  /** Shank's lower end against the ankle: heel pad, ankle and knee soften the jolt on its way up, metres. */
  shank_give_x: Float64Array;
  shank_give_z: Float64Array;
  foot_pitch: Float64Array;
  foot_roll: Float64Array;
  foot_yaw: Float64Array;
  shank_pitch: Float64Array;
  shank_roll: Float64Array;
  shank_yaw: Float64Array;
  /** Vertical ground force, N. */
  force_n: Float64Array;
  /** Height of the lowest point of the sole above the ground while in the air; 0 on the ground. */
  clearance_m: Float64Array;
}

const GRAVITY = 9.80665;
/** The intended paths of a contact run on for this long after toe-off, until the swing takes over. */
const AFTER_S = 0.06;
/** From standing, heel and knee begin to move this long before the foot leaves. */
const HEEL_RISE_S = 0.29;
/** The blow of landing is over after this long. */
const LANDING_S = 0.018;
/** Foot and shank turn faster and faster in the last instants before touchdown, with these time constants. */
const PITCH_GROWS_S = 0.04;
const SHANK_GROWS_S = 0.05;

function contactMechanics(runner: Runner, speed_mps: number, gain: number): ContactMechanics {
  const forefoot = Math.min(1, Math.max(0, 0.5 + runner.strike / 2 + 0.4 * gain + 0.06 * Math.max(0, speed_mps - 4)));
  const share = 0.055 - 0.034 * forefoot;
  return {
    effective_mass_kg: share * runner.body_mass_kg,
    stiffness: (1 + 0.4 * forefoot) * 1e6 * runner.sole_stiffness,
    damping: runner.sole_damping,
    friction: 0.85,
    shear_stiffness: 9e4,
    toe_stiffness: runner.toe_stiffness,
    hold_hz: 8,
    hold_damping: 0.7,
    yield_per_kgm2: (2.4 - 1.9 * forefoot) * runner.ankle_yield,
  };
}

/** Load of the body over a contact: a skewed half sine (running) or two humps (walking), with the right impulse. */
function bodyLoad(runner: Runner, plant: Plant, fromStanding: boolean): (time_s: number) => number {
  const weight = runner.body_mass_kg * GRAVITY;
  if (plant.kind === 'stand') {
    return (t) => {
      const rise = Math.min(1, Math.max(0, (t - plant.touchdown_s) / 0.25));
      const left = plant.toe_off_s - t;
      if (left === Number.POSITIVE_INFINITY) return 0.5 * weight * rise;
      if (left <= 0) return 0;
      // A start: the push grows above standing weight and ends at toe-off.
      const push = left < HEEL_RISE_S ? 0.55 * Math.sin((Math.PI * left) / HEEL_RISE_S) : 0;
      return weight * rise * (0.5 * Math.min(1, left / 0.12) + (fromStanding ? push : 0.2 * push));
    };
  }
  const duration = plant.toe_off_s - plant.touchdown_s;
  const skew = plant.kind === 'walk' ? 1 : runner.load_skew;
  const shape = (u: number) => {
    const s = Math.PI * u ** skew;
    return plant.kind === 'walk' ? Math.sin(s) + 0.35 * Math.sin(3 * s) : Math.sin(s);
  };
  let mean = 0;
  for (let i = 0; i < 100; i++) mean += shape((i + 0.5) / 100) / 100;
  const wanted = plant.kind === 'walk' ? 0.82 : (duration + plant.flight_s) / duration;
  return (t) => {
    const u = (t - plant.touchdown_s) / duration;
    return u <= 0 || u >= 1 ? 0 : (weight * wanted * shape(u)) / mean;
  };
}

function pitchPath(gait: Gait, plant: Plant): SmoothPath {
  const t0 = plant.touchdown_s;
  const t1 = plant.toe_off_s;
  const d = t1 - t0;
  const { toe_off } = gait;
  if (plant.kind === 'stand') {
    if (t1 === Number.POSITIVE_INFINITY) {
      const land = minimumJerkPath(
        { time_s: t0, value: gait.touchdown.pitch, rate: gait.touchdown.pitch_rate, acceleration: 0 },
        [],
        { time_s: t0 + 0.12, value: 0, rate: 0, acceleration: 0 },
      );
      return (t) => (t < t0 + 0.12 ? land(t) : { value: 0, rate: 0, acceleration: 0 });
    }
    const rise = minimumJerkPath({ time_s: t1 - HEEL_RISE_S, value: 0, rate: 0, acceleration: 0 }, [], {
      time_s: t1 + 0.08,
      value: toe_off.pitch + 0.05 * toe_off.pitch_rate,
      rate: 0.5 * toe_off.pitch_rate,
      acceleration: 0,
    });
    const settle = pitchPath(gait, { ...plant, toe_off_s: Number.POSITIVE_INFINITY });
    return (t) => (t < t1 - HEEL_RISE_S ? settle(t) : rise(Math.min(t, t1 + 0.08)));
  }
  const slow = plant.kind === 'walk';
  const touchdown = {
    time_s: t0,
    value: gait.touchdown.pitch,
    rate: gait.touchdown.pitch_rate,
    acceleration: gait.touchdown.pitch_rate / PITCH_GROWS_S,
  };
  // A heel strike slaps flat within some 15 to 50 ms; a forefoot strike sinks towards the heel and may never reach it.
  const heelFirst = gait.touchdown.pitch < 0;
  const down_s = slow
    ? 0.13 * d
    : heelFirst
      ? Math.min(0.25 * d, 0.014 + Math.abs(gait.touchdown.pitch) / 9)
      : Math.min(0.2 * d, 0.032);
  const down: PathState = heelFirst
    ? { value: 0, rate: 0.3, acceleration: 0 }
    : { value: 0.85 * gait.touchdown.pitch, rate: -0.6 - 6 * gait.touchdown.pitch, acceleration: 0 };
  const rise_s = (slow ? 0.5 : 0.36) * d;
  const rise: PathState = {
    value: (heelFirst ? 0.02 : 0.5 * gait.touchdown.pitch) + 0.03 * toe_off.pitch,
    rate: (slow ? 0.02 : 0.1) * toe_off.pitch_rate,
    acceleration: toe_off.pitch_rate / (1.5 * d),
  };
  const stance = joinedPath([
    touchdown,
    { time_s: t0 + down_s, ...down },
    { time_s: t0 + rise_s, ...rise },
    { time_s: t1, value: toe_off.pitch, rate: toe_off.pitch_rate, acceleration: toe_off.pitch_acceleration },
  ]);
  const leave = minimumJerkPath(
    { time_s: t1, value: toe_off.pitch, rate: toe_off.pitch_rate, acceleration: toe_off.pitch_acceleration },
    [],
    {
      time_s: t1 + AFTER_S,
      value: toe_off.pitch + 0.62 * toe_off.pitch_rate * AFTER_S,
      rate: 0.35 * toe_off.pitch_rate,
      acceleration: 0,
    },
  );
  return (t) => (t <= t1 ? stance(Math.max(t, t0)) : leave(Math.min(t, t1 + AFTER_S)));
}

/** Angle that is still at its turning points, joined by quintics at rest: for the small frontal and transverse motion. */
function restfulPath(points: [number, number][]): (time_s: number) => number {
  let i = 0;
  return (t) => {
    while (i < points.length - 2 && t > points[i + 1][0]) i++;
    while (i > 0 && t < points[i][0]) i--;
    const [t0, a] = points[i];
    const [t1, b] = points[i + 1];
    const u = Math.min(1, Math.max(0, (t - t0) / (t1 - t0)));
    return a + (b - a) * u * u * u * (10 - 15 * u + 6 * u * u);
  };
}

function touchdownState(shape: FootShape, plant: Plant, gait: Gait): FootState {
  const { pitch, pitch_rate, sink, slip } = gait.touchdown;
  const ball = shape.points[BALL];
  let lowest = shape.points[0];
  for (const point of shape.points) {
    if (
      Math.sin(pitch) * point.x - Math.cos(pitch) * point.z >
      Math.sin(pitch) * lowest.x - Math.cos(pitch) * lowest.z
    ) {
      lowest = point;
    }
  }
  const rx = Math.cos(pitch) * lowest.x + Math.sin(pitch) * lowest.z;
  const rz = -Math.sin(pitch) * lowest.x + Math.cos(pitch) * lowest.z;
  const still = plant.kind === 'stand' && plant.speed_mps === 0;
  return {
    x: plant.ball_x_m - (Math.cos(pitch) * ball.x + Math.sin(pitch) * ball.z),
    z: soleDepth(shape, pitch),
    vx: still ? 0 : slip - rz * pitch_rate,
    vz: still ? 0 : -sink + rx * pitch_rate,
    ax: still ? 0 : -14 * slip,
    az: still ? 0 : 4 * sink,
    pitch,
    pitch_rate,
    pitch_acceleration: plant.kind === 'run' || plant.kind === 'walk' ? pitch_rate / PITCH_GROWS_S : 0,
  };
}

const REST: PathState = { value: 0, rate: 0, acceleration: 0 };

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
  const column = () => new Float64Array(n);
  const motion: LegMotion = {
    start_s,
    rate_hz,
    x: column(),
    y: column(),
    z: column(),
    shank_give_x: column(),
    shank_give_z: column(),
    foot_pitch: column(),
    foot_roll: column(),
    foot_yaw: column(),
    shank_pitch: column(),
    shank_roll: column(),
    shank_yaw: column(),
    force_n: column(),
    clearance_m: column(),
  };
  const shape = footShape(runner.stature_m);
  const side = plants[0].side;
  const outward = side === 'left' ? 1 : -1;
  const thigh = 0.245 * runner.stature_m;
  const shankLength = 0.246 * runner.stature_m;
  const gaits = plants.map((plant) => {
    const duration = Math.min(1, plant.toe_off_s - plant.touchdown_s);
    const gait = drawGait(runner, Math.max(plant.speed_mps, 0.8), plant.gain, duration, random);
    if (plant.kind === 'hop') {
      // Lands on the ball of the foot with the speed of the fall, takes off with the foot pointed.
      const sink = 0.5 * GRAVITY * plant.flight_s;
      gait.touchdown = { pitch: 0.22, pitch_rate: 1, shank: 0.1, shank_rate: 1.5, sink, slip: 0 };
      gait.toe_off = { ...gait.toe_off, pitch: 0.55, pitch_rate: 7, shank: 0.2, shank_rate: -0.5 };
    }
    if (plant.kind === 'stand') {
      if (plant.speed_mps === 0) {
        gait.touchdown = { pitch: 0, pitch_rate: 0, shank: 0.08, shank_rate: 0, sink: 0, slip: 0 };
      }
      gait.toe_off.shank = 0.9;
      gait.toe_off.shank_rate = 1.5;
      gait.toe_off.pitch = Math.max(gait.toe_off.pitch, 0.95);
      gait.toe_off.pitch_rate = 8;
    }
    return gait;
  });
  const rolls: [number, number][] = [];
  const yaws: [number, number][] = [];
  const sways: [number, number][] = [];
  const width = 0.05 * runner.stature_m;
  const indexOf = (t: number) => Math.round((t - start_s) * rate_hz);

  // Soft tissue: shank and roll answer the jolt of the ground like damped springs, so that they ring on.
  let softJolt = 0;
  const give = { x: 0, vx: 0, z: 0, vz: 0 };
  const ring = { shank: 0, shankRate: 0, roll: 0, rollRate: 0 };
  const shankRing = 2 * Math.PI * (16 + 8 * random.uniform(0, 1));
  const rollRing = 2 * Math.PI * (12 + 8 * random.uniform(0, 1));
  const shankGain = random.uniform(0, 0.45);
  const rollGain = random.uniform(0.05, 0.2) * runner.looseness * outward;
  const jolt = column();
  const blowUp = column();
  const blowForward = column();
  const giveRate = 2 * Math.PI * random.uniform(22, 38);
  const giveDamping = random.uniform(0.4, 0.7);

  let last: { run: ContactRun; plant: Plant; gait: Gait; shank: SmoothPath } | null = null;
  for (let k = 0; k < plants.length; k++) {
    const plant = plants[k];
    const gait = gaits[k];
    const begin = indexOf(plant.touchdown_s);
    const state = touchdownState(shape, plant, gait);
    const began_s = start_s + begin * dt;
    if (last) {
      swing(last, { state, time_s: began_s, gait, plant });
    }
    if (begin >= n) break;
    const mechanics = contactMechanics(runner, plant.speed_mps, plant.gain);
    const run = runContact(
      shape,
      mechanics,
      {
        touchdown_s: began_s,
        toe_off_s: plant.toe_off_s,
        pitch: pitchPath(gait, { ...plant, touchdown_s: began_s }),
        load: bodyLoad(runner, plant, plants[k + 1]?.kind === 'run'),
        lift_mps2: runner.pick_up * 5 * Math.min(9, gait.pace_mps),
        pull_mps2: runner.pick_up * 6 * Math.min(9, gait.pace_mps),
        pick_up_lead_s: runner.pick_up_lead_share * Math.min(0.4, plant.toe_off_s - began_s),
        pick_up_end_s: 0.065 * Math.min(0.4, plant.toe_off_s - began_s),
      },
      state,
      began_s,
      dt,
      end_s,
    );
    const off = Math.min(plant.toe_off_s, end_s + 1);
    const duration = off - began_s;
    const shankPath: SmoothPath =
      plant.kind === 'stand'
        ? standingShank(gait, began_s, plant.toe_off_s)
        : stanceShank(gait, began_s, off + runner.fold_lag_share * Math.min(0.4, duration));
    run.states.forEach((s, j) => {
      const i = begin + j;
      if (i < 0 || i >= n) return;
      motion.x[i] = s.x;
      motion.z[i] = s.z;
      motion.foot_pitch[i] = s.pitch;
      motion.shank_pitch[i] = shankPath(Math.min(start_s + i * dt, off + AFTER_S)).value;
      motion.force_n[i] = run.force_n[j];
      jolt[i] = run.jolt_up_n[j];
      // What heel pad, ankle and knee take up is the blow of landing, not the load that follows.
      const landing = Math.exp(-(((j * dt) / LANDING_S) ** 2)) / mechanics.effective_mass_kg;
      blowUp[i] = run.jolt_up_n[j] * landing;
      blowForward[i] = run.jolt_forward_n[j] * landing;
    });
    const yaw = -outward * ((runner.toe_out_deg[side] * Math.PI) / 180 + gait.toe_out);
    const swingEnd = plants[k + 1]?.touchdown_s ?? off + 0.5;
    const at = (share: number) => off + share * (swingEnd - off);
    const moving = plant.kind !== 'stand' || plant.speed_mps > 0;
    rolls.push(
      [began_s, moving ? gait.roll_touchdown * outward : 0],
      [began_s + Math.min(0.3, 0.35 * duration), moving ? gait.roll_contact * outward : 0],
    );
    rolls.push([off, 0.4 * gait.roll_touchdown * outward], [at(0.45), 1.4 * gait.roll_touchdown * outward]);
    yaws.push(
      [began_s, yaw * 0.9],
      [off - 0.3 * Math.min(duration, 0.4), yaw],
      [off + 0.02, yaw * 1.2],
      [at(0.5), yaw - outward * 0.12 * gait.sway * 2],
    );
    sways.push(
      [began_s, width * 0.5 * outward],
      [off, width * 0.5 * outward],
      [at(0.4), (width * 0.5 + 0.05 * gait.sway) * outward],
    );
    last = { run, plant, gait, shank: shankPath };
    if (plant.toe_off_s === Number.POSITIVE_INFINITY) break;
  }
  fillSmall();
  return motion;

  /** The knee drives forward fastest soon after touchdown and has stopped turning about toe-off. */
  function stanceShank(gait: Gait, t0: number, t1: number): SmoothPath {
    const [a, b] = [gait.touchdown, gait.toe_off];
    const d = t1 - t0;
    const early = Math.min(0.035, 0.24 * d);
    // The knee begins to fold as the load leaves it, about at toe-off.
    const fold = runner.fold_start_radps2 * Math.min(2, gait.toe_off.pitch_rate / 12);
    const peak = (2 * (b.shank - a.shank) - a.shank_rate * early - b.shank_rate * (d - early)) / d;
    return joinedPath([
      { time_s: t0, value: a.shank, rate: a.shank_rate, acceleration: a.shank_rate / SHANK_GROWS_S },
      {
        time_s: t0 + early,
        value: a.shank + ((a.shank_rate + peak) / 2) * early,
        rate: peak,
        acceleration: (-0.5 * (peak - b.shank_rate)) / (d - early),
      },
      { time_s: t1, value: b.shank, rate: b.shank_rate, acceleration: fold },
      {
        time_s: t1 + AFTER_S,
        value: b.shank + b.shank_rate * AFTER_S + 0.45 * fold * AFTER_S ** 2,
        rate: b.shank_rate + 0.75 * fold * AFTER_S,
        acceleration: 0.3 * fold,
      },
    ]);
  }

  function standingShank(gait: Gait, t0: number, t1: number): SmoothPath {
    const settled = 0.08;
    const arrive = minimumJerkPath(
      {
        time_s: t0,
        value: gait.touchdown.shank,
        rate: gait.touchdown.shank_rate,
        acceleration: gait.touchdown.shank_rate / SHANK_GROWS_S,
      },
      [],
      { time_s: t0 + 0.35, ...REST, value: settled },
    );
    if (t1 === Number.POSITIVE_INFINITY) return (t) => (t < t0 + 0.35 ? arrive(t) : { ...REST, value: settled });
    const rise = minimumJerkPath({ time_s: t1 - HEEL_RISE_S, ...REST, value: settled }, [], {
      time_s: t1,
      value: gait.toe_off.shank,
      rate: gait.toe_off.shank_rate,
      acceleration: 0,
    });
    const leave = (t: number): PathState => ({
      value: gait.toe_off.shank + gait.toe_off.shank_rate * (t - t1),
      rate: gait.toe_off.shank_rate,
      acceleration: 0,
    });
    return (t) => {
      if (t < t0 + 0.35) return arrive(t);
      if (t < t1 - HEEL_RISE_S) return { ...REST, value: settled };
      return t < t1 ? rise(t) : leave(t);
    };
  }

  function swing(
    from: { run: ContactRun; plant: Plant; gait: Gait; shank: SmoothPath },
    to: { state: FootState; time_s: number; gait: Gait; plant: Plant },
  ): void {
    const leave = from.run.states[from.run.states.length - 1];
    const t0 = from.run.start_s + (from.run.states.length - 1) * dt;
    const t1 = to.time_s;
    const hop = to.plant.kind === 'hop' || from.plant.kind === 'hop';
    const rise = hop ? (GRAVITY * (t1 - t0) ** 2) / 8 : 0;
    const off = from.plant.toe_off_s;
    // A stride's way of swinging belongs to where it goes: speeds at both ends differ most in a start.
    const angles = to.plant.kind === 'stand' ? from.gait.swing : to.gait.swing;
    const hipHeight = 0.505 * runner.stature_m;
    const chain = SWING_SHARES.map((share, i) => {
      const time_s = off + share * (t1 - off);
      const hipX = distanceAt(travel, time_s);
      const hipZ = hipHeight + 0.012 * Math.sin(2 * Math.PI * share);
      return {
        time_s,
        x: hipX + thigh * Math.sin(angles.thigh[i]) - shankLength * Math.sin(angles.shank[i]),
        z: hipZ - thigh * Math.cos(angles.thigh[i]) - shankLength * Math.cos(angles.shank[i]),
        shank: angles.shank[i],
        pitch: angles.pitch[i],
      };
    });
    // A swing into or out of standing is a low, short step: no folded leg.
    const low = from.plant.kind === 'stand' || to.plant.kind === 'stand';
    const shankOff = from.shank(Math.min(t0, off + AFTER_S));
    const points = low
      ? [
          {
            time_s: 0.5 * (t0 + t1),
            x: 0.5 * (leave.x + to.state.x),
            z: Math.max(leave.z, to.state.z) + 0.04 + rise + 0.1 * Math.abs(to.state.x - leave.x),
            shank: 0.5 * (shankOff.value + to.gait.touchdown.shank) + 0.3 * (t1 - t0),
            pitch: 0.55 * leave.pitch + 0.45 * to.state.pitch,
          },
        ]
      : chain.filter((point) => point.time_s > t0 + 0.02 && point.time_s < t1 - 0.015);
    const small = hop || Math.abs(to.state.x - leave.x) < 0.5;
    // Just after toe-off the body carries the foot along; where it goes is set by the fold, not by a point of its own.
    const carried = (p: { time_s: number }) => low || p.time_s > off + 0.3 * (t1 - off);
    const via = small ? [] : points;
    // The knee folds at once after toe-off and soon reaches its rate: one more point on the shank's way.
    const folding = { time_s: off + runner.fold_share * (t1 - off), value: 0 };
    if (!low && !small && points.length > 0) {
      const [span, early] = [points[0].time_s - off, folding.time_s - off];
      const toeOff = from.gait.toe_off;
      const steady = (points[0].shank - toeOff.shank - 0.3 * toeOff.shank_rate * early) / (span - 0.58 * early);
      folding.value = toeOff.shank + (0.42 * steady + 0.3 * toeOff.shank_rate) * early;
    }
    const path = (key: 'x' | 'pitch' | 'shank', a: PathState, b: PathState) => {
      const through = via.filter((p) => key !== 'x' || carried(p)).map((p) => ({ time_s: p.time_s, value: p[key] }));
      if (key === 'shank' && folding.value !== 0 && folding.time_s > t0 + 0.012) through.unshift(folding);
      return minimumJerkPath({ ...a, time_s: t0 }, through, { ...b, time_s: t1 });
    };
    const { touchdown } = to.gait;
    const px = path(
      'x',
      { value: leave.x, rate: leave.vx, acceleration: leave.ax },
      { value: to.state.x, rate: to.state.vx, acceleration: to.state.ax },
    );
    const pp = path(
      'pitch',
      { value: leave.pitch, rate: leave.pitch_rate, acceleration: leave.pitch_acceleration },
      { value: to.state.pitch, rate: to.state.pitch_rate, acceleration: to.state.pitch_acceleration },
    );
    const ps = path('shank', shankOff, {
      value: touchdown.shank,
      rate: touchdown.shank_rate,
      acceleration: touchdown.shank_rate / SHANK_GROWS_S,
    });
    // Toes must clear the ground: where the chain would scrape, the ankle is carried higher.
    let lift = small && !hop ? 0.06 : 0;
    for (let attempt = 0; attempt < 6; attempt++) {
      const via3 = small
        ? [{ time_s: (t0 + t1) / 2, value: Math.max(leave.z, to.state.z) + (hop ? rise : 0.05) + lift }]
        : points.filter(carried).map((p) => ({ time_s: p.time_s, value: p.z + lift }));
      const pz = minimumJerkPath({ value: leave.z, rate: leave.vz, acceleration: leave.az, time_s: t0 }, via3, {
        value: to.state.z,
        rate: to.state.vz,
        acceleration: to.state.az,
        time_s: t1,
      });
      let lowest = 1;
      for (let i = indexOf(t0) + 1; i < indexOf(t1); i++) {
        if (i < 0 || i >= n) continue;
        const t = start_s + i * dt;
        motion.x[i] = px(t).value;
        motion.z[i] = pz(t).value;
        motion.foot_pitch[i] = pp(t).value;
        motion.shank_pitch[i] = ps(t).value;
        motion.clearance_m[i] = motion.z[i] - soleDepth(shape, motion.foot_pitch[i]);
        lowest = Math.min(lowest, motion.clearance_m[i]);
      }
      if (lowest > -0.001) break;
      lift += 0.015 - lowest;
    }
  }

  function fillSmall(): void {
    const head = (points: [number, number][]) =>
      [
        [start_s - 1, points[0][1]] as [number, number],
        ...points,
        [end_s + 2, points[points.length - 1][1]] as [number, number],
      ].sort((a, b) => a[0] - b[0]);
    const roll = restfulPath(head(rolls));
    const yaw = restfulPath(head(yaws));
    const sway = restfulPath(head(sways));
    for (let i = 0; i < n; i++) {
      const t = start_s + i * dt;
      softJolt += ((jolt[i] - softJolt) * dt) / 0.006;
      ring.shankRate +=
        dt * (shankGain * softJolt - 2 * 0.2 * shankRing * ring.shankRate - shankRing ** 2 * ring.shank);
      ring.shank += dt * ring.shankRate;
      ring.rollRate += dt * (rollGain * jolt[i] - 2 * 0.25 * rollRing * ring.rollRate - rollRing ** 2 * ring.roll);
      ring.roll += dt * ring.rollRate;
      give.vx += dt * (-blowForward[i] - 2 * giveDamping * giveRate * give.vx - giveRate ** 2 * give.x);
      give.x += dt * give.vx;
      give.vz += dt * (-blowUp[i] - 2 * giveDamping * giveRate * give.vz - giveRate ** 2 * give.z);
      give.z += dt * give.vz;
      motion.shank_give_x[i] = give.x;
      motion.shank_give_z[i] = give.z;
      motion.foot_roll[i] = roll(t) + ring.roll;
      motion.foot_yaw[i] = yaw(t);
      motion.shank_roll[i] = 0.5 * roll(t) + 0.3 * ring.roll;
      motion.shank_yaw[i] = 0.7 * yaw(t) + 0.25 * roll(t);
      motion.shank_pitch[i] += ring.shank;
      motion.y[i] = sway(t);
    }
  }
}
