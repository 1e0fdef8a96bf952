import type { Athlete } from './athlete.ts';
import type { Contact, PlanarMotion } from './contact.ts';
import type { Curve, End } from './curves.ts';
import { endOf, quintic, smoothStep, throughPoints } from './curves.ts';
import type { Leg } from './leg.ts';
import { ankleAt, ankleFromBall, reach } from './leg.ts';

/**
 * Swing of a running leg in joint angles, from toe-off to touchdown: both ends follow from the ground (the same angles
 * and angular velocities as the standing foot gives; at touchdown plus the landing velocity), in between the leg passes
 * the poses of sprinting: knee folded to 140-155 degrees at 38 % of swing, thigh 65-75 degrees up at two thirds,
 * shank reaching forward and drawn back before touchdown. x is relative to a base that glides from one place to the next.
 */
export function runningSwing(
  a: Athlete,
  leg: Leg,
  hipS: Curve,
  hipZ: Curve,
  off: PlanarMotion,
  on: PlanarMotion,
  from: Contact,
  to: Contact,
): { motion: PlanarMotion; shank: Curve } {
  const t0 = from.toeOff;
  const t1 = to.touchdown;
  const degrees = Math.PI / 180;
  const angles = (ground: PlanarMotion, base: number) => (t: number) => {
    const p = ground(t);
    return { ...reach(leg, base + p[3] - hipS(t), p[4] - hipZ(t)), pitch: p[2] };
  };
  const start = angles(off, from.s);
  const landed = angles(on, to.s);

  // joint velocities at touchdown that give the foot its landing velocity over the ground
  const h = 2e-4;
  const p0 = on(t1);
  const L = to.landing;
  const rollX = endOf((t) => on(t)[0], t1).v;
  const rollZ = endOf((t) => on(t)[1], t1).v;
  const rollPitch = endOf((t) => on(t)[2], t1).v;
  const pitchRate = rollPitch + L.spin;
  const lever = ankleFromBall(leg, p0[2] + pitchRate * h);
  const lever0 = ankleFromBall(leg, p0[2] - pitchRate * h);
  const vx = rollX + L.forward + (lever.dx - lever0.dx) / (2 * h) - endOf(hipS, t1).v;
  const vz = rollZ - L.down + (lever.dz - lever0.dz) / (2 * h) - endOf(hipZ, t1).v;
  const pose = landed(t1);
  const base = ankleAt(leg, pose.thigh, pose.knee);
  const e = 1e-5;
  const byThigh = ankleAt(leg, pose.thigh + e, pose.knee);
  const byKnee = ankleAt(leg, pose.thigh, pose.knee + e);
  const j11 = (byThigh.dx - base.dx) / e;
  const j12 = (byKnee.dx - base.dx) / e;
  const j21 = (byThigh.dz - base.dz) / e;
  const j22 = (byKnee.dz - base.dz) / e;
  const det = j11 * j22 - j12 * j21;
  const thighRate = (vx * j22 - vz * j12) / det;
  const kneeRate = (j11 * vz - j21 * vx) / det;

  const pace = Math.max(0, Math.min(1, (to.speed - 3) / 6.5));
  const hard = to.index <= 8 && to.phase !== 'slowing' ? Math.exp(-(to.index - 1) / 3) : 0;
  const fold = (88 + 62 * pace) * degrees + a.kneeFold;
  const lift = (36 + 34 * pace) * degrees;
  const kneePeak = fold * (1 - hard) + 112 * degrees * hard;
  const liftPeak = lift * (1 - hard) + Math.max(lift, 66 * degrees) * hard;
  // Until the push-off is over, shank and foot turn as it says; the thigh as fits them best while the ankle leaves the ground.
  const push = from.push;
  const free = push ? Math.min(push.until, t0 + 0.22 * (t1 - t0)) : t0;
  const left = start(t0);
  const lean = push ? push.shank : (t: number) => start(t).shank;
  const away = relativeTo(off, from.s, hipS, hipZ, t0);
  const offThigh = fittingThigh(leg, left.thigh, endOf(lean, t0), away);
  const T = t1 - t0;
  const inner = (points: [number, number][]): [number, number][] =>
    points
      .map(([share, value]): [number, number] => [(t0 + share * T - free) / (t1 - free), value])
      .filter(([share]) => share > 0.08);
  const thigh = throughPoints(t0, { p: left.thigh, v: offThigh, a: 40 }, t1, { p: pose.thigh, v: thighRate }, [
    [0.34, left.thigh + (liftPeak - left.thigh) * 0.42],
    [0.7, liftPeak],
  ]);
  const kneeFree = endOf((t) => lean(t) + thigh(t), free);
  const kneeLater = throughPoints(
    free,
    kneeFree,
    t1,
    { p: pose.knee, v: kneeRate },
    inner([
      [0.38, kneePeak],
      [0.7, kneePeak * (0.74 + 0.03 * pace + 0.2 * hard)],
      [0.9, Math.max(pose.knee + 2 * degrees, (16 + 8 * pace) * degrees)],
    ]),
  );
  const knee = (t: number) => (t < free ? lean(t) + thigh(t) : kneeLater(t));
  const turn = push ? push.foot : (t: number) => off(t)[2];
  const flex = throughPoints(
    free,
    endOf((t) => turn(t) - lean(t), free),
    t1,
    { p: pose.pitch - pose.shank, v: pitchRate - (kneeRate - thighRate) },
    inner([
      [0.3, 20 * degrees],
      [0.68, -2 * degrees],
      [0.9, -8 * degrees],
    ]),
  );
  // What the ankle's leaving has beyond the chain's motion: the hip gives.
  const chain = (t: number) => ankleAt(leg, thigh(t), knee(t));
  const given = t0 + 0.4 * T;
  const give = (part: 'dx' | 'dz', end: End): Curve => {
    const there = endOf((t) => chain(t)[part], t0 + 2e-4);
    const more = { p: end.p - chain(t0)[part], v: end.v - there.v, a: end.a - there.a };
    const curve = quintic(t0, more, given, { p: 0, v: 0, a: 0 });
    return (t) => (t < given ? curve(t) : 0);
  };
  const giveX = give('dx', away.x);
  const giveZ = give('dz', away.z);
  const motion: PlanarMotion = (t) => {
    const at = chain(t);
    const pitch = t < free ? turn(t) : knee(t) - thigh(t) + flex(t);
    const lever = ankleFromBall(leg, pitch);
    const ax = hipS(t) + at.dx + giveX(t);
    const az = hipZ(t) + at.dz + giveZ(t);
    const blend = from.s + (to.s - from.s) * smoothStep((t - t0) / T);
    return [ax - lever.dx - blend, az - lever.dz, pitch, ax - blend, az];
  };
  return { motion, shank: (t) => knee(t) - thigh(t) };
}

/** Course of the ankle relative to the hip as it leaves the ground. */
function relativeTo(off: PlanarMotion, base: number, hipS: Curve, hipZ: Curve, t0: number): { x: End; z: End } {
  return {
    x: endOf((t) => base + off(t)[3] - hipS(t), t0),
    z: endOf((t) => off(t)[4] - hipZ(t), t0),
  };
}

/** Turning of the thigh with which the ankle moves most nearly as it has to, given the shank's. */
function fittingThigh(leg: Leg, thigh: number, shank: End, away: { x: End; z: End }): number {
  const [ux, uz] = [Math.cos(thigh), Math.sin(thigh)];
  const vx = away.x.v + leg.shank * Math.cos(shank.p) * shank.v;
  const vz = away.z.v - leg.shank * Math.sin(shank.p) * shank.v;
  return Math.max(-10, Math.min(2, (ux * vx + uz * vz) / leg.thigh));
}

/** Swing of a walking foot, and of the steps between running and walking: smooth from place to place, heel first up. */
export function walkingSwing(leg: Leg, off: PlanarMotion, on: PlanarMotion, from: Contact, to: Contact): PlanarMotion {
  const t0 = from.toeOff;
  const t1 = to.touchdown;
  const degrees = Math.PI / 180;
  const x0 = endOf((t) => off(t)[0], t0);
  const z0 = endOf((t) => off(t)[1], t0);
  const p0 = endOf((t) => off(t)[2], t0);
  const x1 = endOf((t) => on(t)[0], t1);
  const z1 = endOf((t) => on(t)[1], t1);
  const p1 = endOf((t) => on(t)[2], t1);
  const x = quintic(t0, x0, t1, { p: x1.p, v: x1.v + to.landing.forward, a: 0 });
  const z = quintic(t0, z0, t1, { p: z1.p, v: z1.v - to.landing.down, a: 0 });
  const pitch = throughPoints(t0, p0, t1, { p: p1.p, v: p1.v + to.landing.spin }, [
    [0.3, p0.p + 4 * degrees],
    [0.7, -8 * degrees],
  ]);
  const lift = from.speed > 2 ? 0.1 : 0.03;
  return (t) => {
    const u = (t - t0) / (t1 - t0);
    const w = u * (1 - u);
    const p = pitch(t);
    const lever = ankleFromBall(leg, p);
    const X = x(t);
    const Z = z(t) + lift * 64 * w * w * w;
    return [X, Z, p, X + lever.dx, Z + lever.dz];
  };
}
