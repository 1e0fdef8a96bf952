import type { Curve } from './curves.ts';
import { endOf, quintic, smoothStep } from './curves.ts';
import type { Leg } from './leg.ts';
import { ankleFromBall } from './leg.ts';
import type { PushOff } from './push-off.ts';
import type { Sole } from './sole.ts';
import type { Phase, Side } from './schedule.ts';

/** A point of the foot and its pitch as a curve's value: [x ahead of the base, z, pitch, ankle x, ankle z]. */
export type PlanarPose = [number, number, number, number, number];
export type PlanarMotion = (t: number) => PlanarPose;

/** What the ground has to take away after touchdown: excess velocity and acceleration, and how fast it does (1/s). */
export interface Arrest {
  rate: number;
  velocity: number;
  acceleration: number;
}

/** One foot on the ground. Seconds, metres, radians. */
export interface Contact {
  side: Side;
  phase: Phase;
  repetition: number;
  /** 1 for the first contact of a run, or of the walk after it; 0 where the foot stands before the start. */
  index: number;
  touchdown: number;
  /** 1e9 where the foot stays. */
  toeOff: number;
  /** Where the ball of the foot stands: along the line, and to the left of it. */
  s: number;
  lateral: number;
  toeOut: number;
  /** Mean speed of the runner, m/s. */
  speed: number;
  /** Of the foot as it rolls, without what is left of the landing. */
  pitch: Curve;
  /** How far the shoe is pressed together in mid-contact. */
  depth: number;
  /** For the five numbers of `PlanarPose`; empty where the foot was down from the start. */
  arrests: Arrest[];
  /** Motion over the ground at touchdown (m/s, rad/s) and how fast the ground takes it away (1/s). */
  landing: { forward: number; down: number; spin: number; rate: number; spinRate: number };
  /** How a running foot leaves; undefined in walking and standing. */
  push?: PushOff;
}

/** Remainder of a landing: keeps velocity and acceleration continuous at touchdown, then dies out within 10-40 ms. */
export function remainder(a: Arrest, t: number): number {
  const x = a.rate * t;
  return (a.velocity * t * (1 + x) + 0.5 * a.acceleration * t * t) * Math.exp(-x);
}

/** Foot rolling without slipping over a base that does not move. */
export function rolling(c: Contact, sole: Sole, leg: Leg): PlanarMotion {
  return (t) => {
    const pitch = c.pitch(t);
    const u = (t - c.touchdown) / (c.toeOff - c.touchdown);
    const pressed = u > 0 && u < 1 ? c.depth * Math.sin(Math.PI * u) ** 3 : 0;
    const cos = Math.cos(pitch);
    const sin = Math.sin(pitch);
    const sx = sole.x(pitch);
    const sz = sole.z(pitch);
    const x = sole.arc(pitch) - (cos * sx + sin * sz);
    const z = -(-sin * sx + cos * sz) - pressed;
    const ankle = ankleFromBall(leg, pitch);
    return [x, z, pitch, x + ankle.dx, z + ankle.dz];
  };
}

/** Rolling plus what is left of the landing. */
export function grounded(c: Contact, sole: Sole, leg: Leg): PlanarMotion {
  const roll = rolling(c, sole, leg);
  return (t) => {
    const pose = roll(t);
    const since = t - c.touchdown;
    // over for good by 60 % of contact: from there the foot does nothing but roll
    const left = 1 - smoothStep(since / Math.min(0.15, 0.6 * (c.toeOff - c.touchdown)));
    if (c.arrests.length === 5 && left > 0)
      for (let i = 0; i < 5; i++) pose[i] = (pose[i] as number) + left * remainder(c.arrests[i] as Arrest, since);
    return pose;
  };
}

/** Pitch through a running contact: from landing to a nearly flat foot by fraction u1, heel rise, and on as the push-off says. */
export function runningPitch(t0: number, t1: number, landing: number, flat: number, u1: number, push: PushOff): Curve {
  const joined = endOf(push.foot, push.joins);
  const rises = Math.max(t0 + 0.2 * u1 * (t1 - t0), push.joins - (3.2 * (joined.p - flat)) / joined.v);
  const rise = quintic(rises, { p: 0, v: 0, a: 0 }, push.joins, { ...joined, p: joined.p - flat });
  return (t) => {
    if (t >= push.joins) return push.foot(t);
    const down = (landing - flat) * (1 - smoothStep((t - t0) / (u1 * (t1 - t0))));
    return flat + down + (t > rises ? rise(t) : 0);
  };
}

/**
 * Pitch through a contact of walking or standing: from landing to a nearly flat foot by fraction u1, heel rise from fraction u2 to toe-off.
 * The rise ends at `endSlope` times its mean rate and slows down there, as the ankle runs out of extension.
 */
export function contactPitch(
  t0: number,
  t1: number,
  landing: number,
  flat: number,
  off: number,
  u1: number,
  u2: number,
  endSlope = 1.5,
  endBend = -2,
): Curve {
  const c5 = (endBend - 6 * endSlope + 12) / 2;
  const c4 = endSlope - 3 - 2 * c5;
  const c3 = 1 - c4 - c5;
  return (t) => {
    const u = (t - t0) / (t1 - t0);
    const w = Math.max(0, (u - u2) / (1 - u2));
    return flat + (landing - flat) * (1 - smoothStep(u / u1)) + (off - flat) * w * w * w * (c3 + w * (c4 + w * c5));
  };
}
