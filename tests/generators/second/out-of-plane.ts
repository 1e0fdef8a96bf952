import type { Contact } from './contact.ts';
import { type Curve, Pieces, quintic } from './curves.ts';
import type { Random } from './random.ts';

export interface OutOfPlane {
  roll: Curve;
  whip: Curve;
  turn: Curve;
  tilt: Curve;
}

/** Motion outside the sagittal plane (rad): the foot's roll and late whip, the shank's turn about its length and its tilt. */
export function outOfPlane(contacts: Contact[], r: Random): OutOfPlane {
  const degrees = Math.PI / 180;
  const make = (knots: [number, number][]) => {
    const pieces = new Pieces();
    pieces.add(-2, () => knots[0][1]);
    for (let i = 0; i + 1 < knots.length; i++) {
      const [t0, a] = knots[i];
      const [t1, b] = knots[i + 1];
      pieces.add(t0, quintic(t0, { p: a, v: 0, a: 0 }, t1, { p: b, v: 0, a: 0 }));
    }
    const last = knots.at(-1)!;
    pieces.add(last[0], () => last[1]);
    return pieces.value;
  };
  const roll: [number, number][] = [];
  const whip: [number, number][] = [];
  const turn: [number, number][] = [];
  const tilt: [number, number][] = [];
  const size = {
    supinated: r.normal(5, 2),
    pronated: r.normal(-4, 1.5),
    off: r.normal(2, 2),
    swing: r.normal(8, 4),
    whip: r.normal(4, 3),
    swingWhip: r.normal(-6, 6),
    turn: r.normal(6, 2),
    swingTurn: r.normal(-6, 5),
  };
  contacts.forEach((c, i) => {
    const moving = c.speed > 0;
    const k = c.phase === 'walking' ? 0.4 : 1;
    const long = Math.min(c.toeOff, c.touchdown + 0.9);
    const d = long - c.touchdown;
    const put = (list: [number, number][], u: number, value: number) =>
      list.push([c.touchdown + u * d, value * k * degrees * (1 + r.normal(0, 0.12))]);
    if (!moving) {
      for (const list of [roll, whip, turn]) list.push([c.toeOff - 0.15, 0]);
      put(tilt, 0, 3);
      return;
    }
    put(roll, 0, size.supinated);
    put(roll, 0.38, size.pronated);
    put(whip, 0, 0);
    put(whip, 0.55, 0);
    put(turn, 0, -1);
    put(turn, 0.4, size.turn);
    put(tilt, 0, 4);
    put(tilt, 0.99, 5);
    if (c.toeOff < 1e8) {
      put(roll, 1, size.off);
      put(whip, 1, size.whip);
      put(turn, 1, -2);
      const next = contacts[i + 1];
      if (next) {
        const mid = 0.45 * (next.touchdown - c.toeOff) + c.toeOff;
        roll.push([mid, size.swing * k * degrees]);
        whip.push([mid, size.swingWhip * k * degrees]);
        turn.push([mid, size.swingTurn * k * degrees]);
      }
    } else for (const list of [roll, whip, turn]) put(list, 0.7, 0);
  });
  return { roll: make(roll), whip: make(whip), turn: make(turn), tilt: make(tilt) };
}
