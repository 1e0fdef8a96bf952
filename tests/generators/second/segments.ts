import type { Athlete } from './athlete.ts';
import type { PlanarMotion } from './contact.ts';
import { grounded, rolling } from './contact.ts';
import { endOf, smoothStep } from './curves.ts';
import { hipGive } from './hip-give.ts';
import type { Leg } from './leg.ts';
import { reach } from './leg.ts';
import { outOfPlane } from './out-of-plane.ts';
import type { Random } from './random.ts';
import type { Side } from './schedule.ts';
import type { Session } from './session.ts';
import type { Sole } from './sole.ts';
import { runningSwing, walkingSwing } from './swing.ts';

/** Pose of a segment's origin (m) and its yaw, pitch, roll (rad; Rz Ry Rx) on an even time grid. */
export interface SegmentMotion {
  x: Float64Array;
  y: Float64Array;
  z: Float64Array;
  yaw: Float64Array;
  pitch: Float64Array;
  roll: Float64Array;
}
const empty = (n: number): SegmentMotion => ({
  x: new Float64Array(n),
  y: new Float64Array(n),
  z: new Float64Array(n),
  yaw: new Float64Array(n),
  pitch: new Float64Array(n),
  roll: new Float64Array(n),
});

/** Foot and shank of one side for the whole session, `rate` samples a second. */
export function moveLeg(
  a: Athlete,
  leg: Leg,
  sole: Sole,
  session: Session,
  side: Side,
  rate: number,
  r: Random,
): { foot: SegmentMotion; shank: SegmentMotion } {
  const contacts = session.contacts.filter((c) => c.side === side);
  const sign = side === 'left' ? 1 : -1;
  const rigidZ = session.tracks.z.value;
  const rigidS = (t: number) => session.tracks.s.value(t) + sign * session.tracks.pelvis.value(t);
  const soft = hipGive(contacts, leg, sole, rigidS, rigidZ);
  const hipS = (t: number) => rigidS(t) + soft.s(t);
  const hipZ = (t: number) => rigidZ(t) + soft.z(t);
  const places = contacts.map((c) => {
    const at = session.path.place(c.s);
    return {
      x: at.x - c.lateral * Math.sin(at.heading),
      y: at.y + c.lateral * Math.cos(at.heading),
      heading: at.heading,
    };
  });
  const n = Math.floor(session.end * rate);
  const foot = empty(n);
  const shank = empty(n);
  const extras = outOfPlane(contacts, r);
  let index = 0;
  let motion: PlanarMotion = grounded(contacts[0], sole, leg);
  let swinging = false;
  for (let i = 0; i < n; i++) {
    const t = i / rate;
    let c = contacts[index];
    const next = contacts[index + 1];
    if (!swinging && next && t >= c.toeOff) {
      const on = rolling(next, sole, leg);
      const off = motion;
      motion =
        next.phase === 'walking'
          ? walkingSwing(leg, off, on, c, next)
          : runningSwing(a, leg, hipS, hipZ, off, on, c, next);
      const pre = motion;
      next.arrests = [0, 1, 2, 3, 4].map((k) => {
        const before = endOf((x) => pre(x)[k] as number, next.touchdown);
        const after = endOf((x) => on(x)[k] as number, next.touchdown);
        const speed = k === 2 ? next.landing.spinRate : next.landing.rate * (k > 2 ? 0.6 : 1);
        return { rate: speed, velocity: before.v - after.v, acceleration: before.a - after.a };
      });
      swinging = true;
    }
    if (swinging && next && t >= next.touchdown) {
      index++;
      c = next;
      motion = grounded(c, sole, leg);
      swinging = false;
    }
    const place = places[index];
    let { x, y, heading } = place;
    let toeOut = c.toeOut;
    if (swinging) {
      const to = places[index + 1];
      const u = smoothStep((t - c.toeOff) / (contacts[index + 1].touchdown - c.toeOff));
      x += (to.x - x) * u;
      y += (to.y - y) * u;
      heading += (to.heading - heading) * u;
      toeOut += (contacts[index + 1].toeOut - toeOut) * u;
    }
    const [px, pz, pitch, ankleX, ankleZ] = motion(t);
    const cos = Math.cos(heading);
    const sin = Math.sin(heading);
    foot.x[i] = x + px * cos;
    foot.y[i] = y + px * sin;
    foot.z[i] = pz;
    foot.pitch[i] = pitch;
    // Left of x is positive: outward for a left foot. Rolling positively lifts the left edge, which tips a left foot inward.
    foot.yaw[i] = heading + sign * (toeOut + extras.whip(t));
    foot.roll[i] = -sign * extras.roll(t);
    shank.x[i] = x + ankleX * cos;
    shank.y[i] = y + ankleX * sin;
    shank.z[i] = ankleZ;
    // hip in the plane of this leg: along the heading from the ankle
    const hip = session.path.place(hipS(t));
    const dx = (hip.x - shank.x[i]) * cos + (hip.y - shank.y[i]) * sin;
    shank.pitch[i] = reach(leg, -dx, ankleZ - hipZ(t)).shank;
    shank.yaw[i] = heading + sign * (0.6 * toeOut - extras.turn(t));
    shank.roll[i] = sign * extras.tilt(t);
  }
  return { foot, shank };
}
