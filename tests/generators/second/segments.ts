import type { Athlete } from './athlete.ts';
import type { Contact, PlanarMotion } from './contact.ts';
import { grounded, rolling } from './contact.ts';
import { type Curve, endOf, quintic, smoothStep } from './curves.ts';
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
  const hipZ = session.tracks.z.value;
  const hipS = (t: number) => session.tracks.s.value(t) + sign * session.tracks.pelvis.value(t);
  /** Lean with which hip and ankle can be where they are, the ankle relative to a base along a straight line. */
  const reached =
    (pose: PlanarMotion, base: number): Curve =>
    (t) => {
      const [, , , x, z] = pose(t);
      return reach(leg, base + x - hipS(t), z - hipZ(t)).shank;
    };
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
  /** Lean of the shank where it is known without the hip: in running. */
  let lean: Curve | null = null;
  for (let i = 0; i < n; i++) {
    const t = i / rate;
    let c = contacts[index];
    const next = contacts[index + 1];
    if (!swinging && next && t >= c.toeOff) {
      const on = rolling(next, sole, leg);
      const off = motion;
      if (next.phase === 'walking') {
        motion = walkingSwing(leg, off, on, c, next);
        const [walks, from] = [motion, places[index].x];
        lean = leanIntoWalking(c, (t) => {
          const u = smoothStep((t - c.toeOff) / (next.touchdown - c.toeOff));
          return reached(walks, from + (places[index + 1].x - from) * u)(t);
        });
      } else ({ motion, shank: lean } = runningSwing(a, leg, hipS, hipZ, off, on, c, next));
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
      lean = leanOf(c, reached(motion, c.s));
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
    if (lean) shank.pitch[i] = lean(t);
    else {
      // hip in the plane of this leg: along the heading from the ankle
      const hip = session.path.place(hipS(t));
      const dx = (hip.x - shank.x[i]) * cos + (hip.y - shank.y[i]) * sin;
      shank.pitch[i] = reach(leg, -dx, ankleZ - hipZ(t)).shank;
    }
    shank.yaw[i] = heading + sign * (0.6 * toeOut - extras.turn(t));
    shank.roll[i] = sign * extras.tilt(t);
  }
  return { foot, shank };
}

/** Lean of the shank through a running contact: hip and ankle set it after landing, the push-off (push-off.ts) at the end. */
function leanOf(c: Contact, reached: Curve): Curve | null {
  const { push } = c;
  if (!push) return null;
  const hands = c.touchdown + Math.min(0.35 * (c.toeOff - c.touchdown), 0.7 * (push.from - c.touchdown));
  const between = quintic(hands, endOf(reached, hands), push.from, endOf(push.shank, push.from));
  return (t) => (t < hands ? reached(t) : t < push.from ? between(t) : push.shank(t));
}

/** From the last steps of a run into walking: what the push-off had given the shank dies out. */
function leanIntoWalking(c: Contact, reached: Curve): Curve | null {
  const { push, toeOff } = c;
  if (!push) return null;
  const [from, to] = [endOf(push.shank, toeOff), endOf(reached, toeOff)];
  const more = { p: from.p - to.p, v: from.v - to.v, a: from.a - to.a };
  const dies = quintic(toeOff, more, toeOff + 0.16, { p: 0, v: 0, a: 0 });
  return (t) => reached(t) + (t < toeOff + 0.16 ? dies(t) : 0);
}
