/**
 * The swing of one leg from the end of one contact to the next touchdown: ankle, foot and shank pass through postures of the
 * hip-knee-ankle chain by least jerk, beginning and ending exactly as the contacts want it.
 */
import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import type { ContactRun, FootState } from './foot-contact.ts';
import { type Gait, SWING_SHARES } from './gait.ts';
import { distanceAt, type Plant, type Travel } from './step-ground.ts';
import type { Runner } from './runner.ts';
import { SHANK_GROWS_S } from './shank-course.ts';
import { minimumJerkPath, type PathState, type SmoothPath } from './smooth-path.ts';

export interface SwingStart {
  run: ContactRun;
  plant: Plant;
  gait: Gait;
  /** As intended from touchdown until what follows toe-off is over. */
  pitch: SmoothPath;
  shank: SmoothPath;
}

export interface SwingEnd {
  state: FootState;
  time_s: number;
  gait: Gait;
  plant: Plant;
}

export interface Swing {
  from_s: number;
  to_s: number;
  x: SmoothPath;
  pitch: SmoothPath;
  shank: SmoothPath;
  /** Height of the ankle, carried higher by `lift` where the toes would scrape. */
  height(lift_m: number): SmoothPath;
  /** Lift to begin with. */
  lift_m: number;
}

interface Posture {
  time_s: number;
  x: number;
  z: number;
  shank: number;
  pitch: number;
}

/** Postures of the chain at `SWING_SHARES`; lengths of thigh and shank after Winter (0.245 and 0.246 of stature). */
function chainPostures(runner: Runner, travel: Travel, angles: Gait['swing'], off_s: number, to_s: number): Posture[] {
  const thigh = 0.245 * runner.stature_m;
  const shank = 0.246 * runner.stature_m;
  return SWING_SHARES.map((share, i) => {
    const time_s = off_s + share * (to_s - off_s);
    const hipX = distanceAt(travel, time_s);
    const hipZ = 0.505 * runner.stature_m + 0.012 * Math.sin(2 * Math.PI * share);
    return {
      time_s,
      x: hipX + thigh * Math.sin(angles.thigh[i]) - shank * Math.sin(angles.shank[i]),
      z: hipZ - thigh * Math.cos(angles.thigh[i]) - shank * Math.cos(angles.shank[i]),
      shank: angles.shank[i],
      pitch: angles.pitch[i],
    };
  });
}

/** @param dt_s internal step, at which `from.run` was sampled */
export function swingLeg(runner: Runner, travel: Travel, from: SwingStart, to: SwingEnd, dt_s: number): Swing {
  const leave = from.run.states[from.run.states.length - 1];
  const t0 = from.run.start_s + (from.run.states.length - 1) * dt_s;
  const t1 = to.time_s;
  const off = from.plant.toe_off_s;
  const hop = to.plant.kind === 'hop' || from.plant.kind === 'hop';
  const rise = hop ? (STANDARD_GRAVITY_MPS2 * (t1 - t0) ** 2) / 8 : 0;
  // A swing into or out of standing is a low, short step: no folded leg.
  const low = from.plant.kind === 'stand' || to.plant.kind === 'stand';
  const small = hop || Math.abs(to.state.x - leave.x) < 0.5;
  const shankOff = from.shank(t0);
  // A stride's way of swinging belongs to where it goes: speeds at both ends differ most in a start.
  const angles = to.plant.kind === 'stand' ? from.gait.swing : to.gait.swing;
  const postures = low
    ? [lowPosture(leave, to, t0, rise, shankOff.value)]
    : chainPostures(runner, travel, angles, off, t1).filter((p) => p.time_s > t0 + 0.02 && p.time_s < t1 - 0.015);
  // Just after toe-off the body carries the foot along, and shortly before a running touchdown the place of landing leads:
  // where the ankle goes is set by postures in the middle of swing alone.
  const running = from.gait.push_off !== null;
  const carried = (p: { time_s: number }) => {
    const share = (p.time_s - off) / (t1 - off);
    return low || (share > 0.3 && (share < 0.8 || !running));
  };
  const via = small ? [] : postures;

  const folding = low || running || via.length === 0 ? null : foldingPoint(from.gait, off, t1, via[0]);

  const path = (points: { time_s: number; value: number }[], a: PathState, b: PathState) =>
    minimumJerkPath({ ...a, time_s: t0 }, points, { ...b, time_s: t1 });
  const through = (key: 'x' | 'pitch' | 'shank', points: Posture[]) =>
    points.map((p) => ({ time_s: p.time_s, value: p[key] }));
  const { touchdown } = to.gait;
  const { state } = to;
  /** What belongs to leaving the ground goes on to its end; from there the postures lead. */
  const turning = (key: 'pitch' | 'shank', start: PathState, end: PathState): SmoothPath => {
    const knots = from.gait.push_off?.[key === 'pitch' ? 'foot' : 'shank'] ?? [];
    const until_s = Math.min(t1 - 0.03, off + (knots[knots.length - 1]?.after_s ?? 0));
    if (until_s < t0 + 0.004) {
      const first = key === 'shank' && folding && folding.time_s > t0 + 0.012 ? [folding] : [];
      return path([...first, ...through(key, via)], start, end);
    }
    const intended = from[key];
    const there = intended(t0);
    const away = minimumJerkPath(
      {
        time_s: t0,
        value: start.value - there.value,
        rate: start.rate - there.rate,
        acceleration: start.acceleration - there.acceleration,
      },
      [],
      { time_s: until_s, value: 0, rate: 0, acceleration: 0 },
    );
    const later = minimumJerkPath(
      { ...intended(until_s), time_s: until_s },
      through(
        key,
        // What follows toe-off has its own way to the first posture in the middle of swing.
        via.filter((p) => p.time_s > off + 0.3 * (t1 - off) && p.time_s > until_s + 0.018),
      ),
      { ...end, time_s: t1 },
    );
    return (t) => {
      if (t >= until_s) return later(t);
      const [a, b] = [intended(t), away(t)];
      return { value: a.value + b.value, rate: a.rate + b.rate, acceleration: a.acceleration + b.acceleration };
    };
  };
  return {
    from_s: t0,
    to_s: t1,
    x: path(
      through('x', via.filter(carried)),
      { value: leave.x, rate: leave.vx, acceleration: leave.ax },
      { value: state.x, rate: state.vx, acceleration: state.ax },
    ),
    pitch: turning(
      'pitch',
      { value: leave.pitch, rate: leave.pitch_rate, acceleration: leave.pitch_acceleration },
      { value: state.pitch, rate: state.pitch_rate, acceleration: state.pitch_acceleration },
    ),
    shank: turning('shank', shankOff, {
      value: touchdown.shank,
      rate: touchdown.shank_rate,
      acceleration: touchdown.shank_rate / SHANK_GROWS_S,
    }),
    height: (lift_m) =>
      path(
        small
          ? [{ time_s: (t0 + t1) / 2, value: Math.max(leave.z, state.z) + (hop ? rise : 0.05) + lift_m }]
          : postures.filter(carried).map((p) => ({ time_s: p.time_s, value: p.z + lift_m })),
        { value: leave.z, rate: leave.vz, acceleration: leave.az },
        { value: state.z, rate: state.vz, acceleration: state.az },
      ),
    lift_m: small && !hop ? 0.06 : 0,
  };
}

function lowPosture(leave: FootState, to: SwingEnd, t0: number, rise: number, shank: number): Posture {
  return {
    time_s: 0.5 * (t0 + to.time_s),
    x: 0.5 * (leave.x + to.state.x),
    z: Math.max(leave.z, to.state.z) + 0.04 + rise + 0.1 * Math.abs(to.state.x - leave.x),
    shank: 0.5 * (shank + to.gait.touchdown.shank) + 0.3 * (to.time_s - t0),
    pitch: 0.55 * leave.pitch + 0.45 * to.state.pitch,
  };
}

/** In walking the knee folds soon after toe-off and reaches its rate in an eighth of swing: one more point on the shank's way. */
function foldingPoint(gait: Gait, off: number, t1: number, first: Posture) {
  const early = 0.12 * (t1 - off);
  const { shank, shank_rate } = gait.toe_off;
  const steady = (first.shank - shank - 0.3 * shank_rate * early) / (first.time_s - off - 0.58 * early);
  return { time_s: off + early, value: shank + (0.42 * steady + 0.3 * shank_rate) * early };
}
