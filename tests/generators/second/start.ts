import { contactPitch } from './contact.ts';
import { quintic } from './curves.ts';
import { lateralOf, type Scene } from './scene.ts';
import type { Run } from './schedule.ts';

const degrees = Math.PI / 180;
const still = { v: 0, a: 0 };

/**
 * The two feet of a start: flat while standing (until `stood`), pitched into the set position (by `setAt`), pushing off from the first
 * movement on, rear foot first. Feet that stand there from walking keep their place.
 * @param setS where the hip is in the set position, m along the line
 */
export function placeStartFeet(
  { athlete: a, contacts, r }: Scene,
  run: Run,
  setS: number,
  { stood, setAt }: { stood: number; setAt: number },
): void {
  const bent = run.plan.start !== 'standing';
  const first = run.firstMovement;
  const front = bent ? -r.between(0.08, 0.16) : r.between(0.08, 0.16);
  const rear = bent ? front - r.between(0.24, 0.3) : -r.between(0.22, 0.3);
  for (const which of ['rear', 'front'] as const) {
    const side = (which === 'front') === (run.frontSide === 'left') ? 'left' : 'right';
    const toeOff = which === 'front' ? run.frontToeOff : run.rearToeOff;
    const setPitch =
      (bent ? (which === 'front' ? r.between(28, 40) : r.between(42, 55)) : which === 'front' ? 1 : r.between(15, 30)) *
      degrees;
    const push = contactPitch(
      first,
      toeOff,
      setPitch,
      setPitch,
      r.between(62, 72) * degrees,
      0.5,
      which === 'front' ? 0.25 : 0.05,
    );
    const settle = quintic(stood, { p: 0, ...still }, setAt, { p: setPitch, ...still });
    const down = contacts.filter((c) => c.side === side).at(-1);
    const before = down?.pitch ?? (() => 0);
    const pitch = (x: number) => (x < stood ? before(x) : x < setAt ? settle(x) : x < first ? setPitch : push(x));
    if (down) {
      down.pitch = pitch;
      down.toeOff = toeOff;
    } else
      contacts.push({
        side,
        phase: 'standing',
        repetition: run.repetition,
        index: 0,
        touchdown: -1,
        toeOff,
        s: setS + (which === 'front' ? front : rear),
        lateral: lateralOf(side, 0.1),
        toeOut: a.toeOut,
        speed: 0,
        pitch,
        depth: 0,
        arrests: [],
        landing: { forward: 0, down: 0, spin: 0, rate: 100, spinRate: 100 },
      });
  }
}
