import type { Contact } from './contact.ts';
import { rolling } from './contact.ts';
import { type Curve, endOf, Pieces, quintic } from './curves.ts';
import type { Leg } from './leg.ts';
import type { Sole } from './sole.ts';

/**
 * The hip joint is not fixed to the body's path: towards toe-off the pelvis follows the leg by 1-2 cm, so that the knee has
 * stopped extending when the toes leave (as force-plate recordings of running show) instead of being pulled straight.
 */
export function hipGive(
  contacts: Contact[],
  leg: Leg,
  sole: Sole,
  rigidS: Curve,
  rigidZ: Curve,
): { s: Curve; z: Curve } {
  const s = new Pieces();
  const z = new Pieces();
  s.add(-2, () => 0);
  z.add(-2, () => 0);
  contacts.forEach((c, i) => {
    const next = contacts[i + 1];
    if (c.speed <= 0 || c.phase === 'walking' || !next || next.phase === 'walking') return;
    const roll = rolling(c, sole, leg);
    const at = roll(c.toeOff);
    const dx = c.s + at[3] - rigidS(c.toeOff);
    const dz = at[4] - rigidZ(c.toeOff);
    const length = Math.hypot(dx, dz);
    const stretch = endOf((t) => {
      const p = roll(t);
      return Math.hypot(c.s + p[3] - rigidS(t), p[4] - rigidZ(t));
    }, c.toeOff);
    const v = stretch.v + 0.3;
    const before = 0.4 * (c.toeOff - c.touchdown);
    const after = 0.6 * (next.touchdown - c.toeOff);
    const end = { p: 0.42 * v * before, v, a: stretch.a + 25 };
    for (const [pieces, part] of [
      [s, dx / length],
      [z, dz / length],
    ] as const) {
      const there = { p: end.p * part, v: end.v * part, a: end.a * part };
      const none = { p: 0, v: 0, a: 0 };
      pieces.add(c.toeOff - before, quintic(c.toeOff - before, none, c.toeOff, there));
      pieces.add(c.toeOff, quintic(c.toeOff, there, c.toeOff + after, none));
      pieces.add(c.toeOff + after, () => 0);
    }
  });
  return { s: s.value, z: z.value };
}
