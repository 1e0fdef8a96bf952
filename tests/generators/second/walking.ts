import type { Contact } from './contact.ts';
import { contactPitch } from './contact.ts';
import { quintic } from './curves.ts';
import { length } from './leg.ts';
import type { Side } from './schedule.ts';
import { gravity, type HipState, lateralOf, type Scene } from './scene.ts';
import { landingOf } from './styles.ts';

const degrees = Math.PI / 180;

/**
 * Walks on after a run: `straight` steps ahead, then (if `back` > 0) a half circle, `back` metres, another half circle; stops
 * with both feet side by side. Returns the time of standing still and where the hip is.
 */
export function walkOn(
  scene: Scene,
  from: HipState,
  lastSide: Side,
  plan: { straight: number; back: number; repetition: number },
): { t: number; s: number } {
  const { athlete: a, leg, tracks, contacts, path, r } = scene;
  const { straight, back, repetition } = plan;
  const L = length(leg);
  const height = 0.925 * L + leg.ankleUp;
  const stand = 0.985 * L + leg.ankleUp;
  const radius = r.between(1.2, 1.8);
  let turnAt = Number.POSITIVE_INFINITY;
  let stopAt = Number.POSITIVE_INFINITY;
  let side: Side = lastSide === 'left' ? 'right' : 'left';
  let t = from.t + 0.04;
  let s = from.s + from.v * 0.04;
  let v = from.v;
  let z = from.z;
  let vz = from.vz - gravity * 0.04;
  let az = -gravity;
  tracks.s.add(from.t, (x) => from.s + from.v * (x - from.t));
  const turned = tracks.pelvis.value(from.t - 1e-6);
  tracks.pelvis.add(from.t, quintic(from.t, { p: turned, v: 0, a: 0 }, from.t + 0.3, { p: 0, v: 0, a: 0 }));
  tracks.pelvis.add(from.t + 0.3, () => 0);
  const cruise = r.between(1.2, 1.5);
  const walk: Contact[] = [];
  for (let i = 0; ; i++) {
    const interval = Math.min(0.55, 0.4 + 0.04 * i) * (1 + r.normal(0, 0.02));
    const next = i === 0 ? v * 0.82 : cruise + (v - cruise) * 0.6;
    const travel = (interval * (v + next)) / 2;
    if (i === straight && back > 0) {
      turnAt = s + 0.5;
      const half = Math.PI * radius;
      path.bend(turnAt, 1 / radius);
      path.bend(turnAt + half, 0);
      path.bend(turnAt + half + back, 1 / radius);
      path.bend(turnAt + 2 * half + back, 0);
      stopAt = turnAt + 2 * half + back + 1;
    }
    const halt = back > 0 ? s > stopAt : i > straight;
    const previous = walk.at(-1);
    if (previous) previous.toeOff = t + (i < 3 ? 0.06 : 0.11);
    const base = halt && previous ? previous.s : s + travel / 2 + 0.03;
    const touchdown = t;
    const contact: Contact = {
      side,
      phase: 'walking',
      repetition,
      index: i + 1,
      touchdown,
      toeOff: 1e9,
      s: base,
      lateral: lateralOf(side, 0.08),
      toeOut: a.toeOut,
      speed: v,
      pitch: () => 0,
      depth: 0,
      arrests: [],
      landing: landingOf(a, 'walking', 9, 0.3, v, r),
    };
    walk.push(contact);
    const low = height - 0.012;
    const high = halt ? stand : height + 0.012;
    if (halt) {
      // the foot's partner stays down too; the hip comes to rest over the ankles
      const end = base - 0.06;
      const stopped = t + 0.8;
      if (previous) previous.toeOff = 1e9;
      tracks.s.add(t, quintic(t, { p: s, v, a: 0 }, stopped, { p: end, v: 0, a: 0 }));
      tracks.s.add(stopped, () => end);
      tracks.z.add(t, quintic(t, { p: z, v: vz, a: az }, stopped, { p: stand, v: 0, a: 0 }));
      tracks.z.add(stopped, () => stand);
      for (const c of walk) {
        const toeOff = c.toeOff;
        const landing = (c === contact ? -3 : r.normal(-17, 3)) * degrees;
        const stays = toeOff > 1e8;
        const off = stays ? 0 : r.normal(56, 4) * degrees;
        c.pitch = contactPitch(
          c.touchdown,
          stays ? c.touchdown + 0.7 : toeOff,
          landing,
          0,
          off,
          r.between(0.14, 0.2),
          r.between(0.5, 0.58),
        );
        if (stays) {
          const p = c.pitch;
          const at = c.touchdown + 0.7;
          c.pitch = (x) => (x < at ? p(x) : 0);
        }
      }
      contacts.push(...walk);
      return { t: stopped, s: end };
    }
    tracks.s.add(t, quintic(t, { p: s, v, a: 0 }, t + interval, { p: s + travel, v: next, a: 0 }));
    const bend = 0.012 * ((2 * Math.PI) / interval) ** 2;
    const mid = t + interval / 2;
    tracks.z.add(t, quintic(t, { p: z, v: vz, a: az }, mid, { p: high, v: 0, a: -bend }));
    tracks.z.add(mid, quintic(mid, { p: high, v: 0, a: -bend }, t + interval, { p: low, v: 0, a: bend }));
    z = low;
    vz = 0;
    az = bend;
    t += interval;
    s += travel;
    v = next;
    side = side === 'left' ? 'right' : 'left';
  }
}
