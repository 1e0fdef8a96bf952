import type { Athlete } from './athlete.ts';
import type { Contact } from './contact.ts';
import type { Random } from './random.ts';
import type { Phase } from './schedule.ts';

const degrees = Math.PI / 180;
type Landing = Contact['landing'];
export interface Pitches {
  landing: number;
  flat: number;
  off: number;
  u1: number;
}

/** How the foot is pitched through a contact: forefoot first in sprinting, by habit in steady running, flat or heel in slowing. */
export function pitchesOf(a: Athlete, phase: Phase, index: number, effort: number, speed: number, r: Random): Pitches {
  const off = a.toePitch * (0.84 + 0.16 * Math.min(1, speed / a.topSpeed)) + r.normal(0, 2) * degrees;
  if (phase === 'slowing') {
    const heel = a.strike === 'forefoot' ? r.normal(-3, 3) : r.normal(-12, 5);
    return {
      landing: heel * degrees,
      flat: r.normal(0, 1) * degrees,
      off: off - 4 * degrees,
      u1: r.between(0.22, 0.34),
    };
  }
  if (effort < 0.85) {
    const landing = { heel: r.normal(-13, 3), midfoot: r.normal(-1, 1.5), forefoot: r.normal(7, 2) }[a.strike];
    return {
      landing: landing * degrees,
      flat: r.normal(0.5, 0.7) * degrees,
      off,
      u1: r.between(0.2, 0.3),
    };
  }
  if (index <= 8) {
    const first = Math.exp(-(index - 1) / 3);
    return {
      landing: r.normal(7 + 9 * first, 2.5) * degrees,
      flat: r.normal(3.5 + 4 * first, 1.2) * degrees,
      off: a.toePitch + (3 * first + r.normal(0, 2)) * degrees,
      u1: r.between(0.28, 0.38),
    };
  }
  return {
    landing: r.normal(6.5, 2) * degrees,
    flat: r.normal(2.8, 1) * degrees,
    off,
    u1: r.between(0.3, 0.4),
  };
}

/**
 * The foot's motion relative to the ground just before touchdown and how fast the ground takes it away. In sprinting it
 * still moves 1-2.5 m/s forward and 1.5-2.5 m/s down; a soft landing on spikes about 60 % of that, taken up over a longer time. The deceleration peaks
 * 0.7/rate after touchdown at 0.8 rate x speed; the shoe gives way by at most about 12 mm.
 */
export function landingOf(a: Athlete, phase: Phase, index: number, effort: number, speed: number, r: Random): Landing {
  const pace = phase === 'walking' ? 0.2 : 0.45 + 0.55 * Math.min(1, speed / 10);
  const soft = phase === 'slowing' ? Math.max(a.softness, 0.7) : a.softness;
  const forward = Math.max(0.3, r.normal(1.9, 0.35) + 0.3 * Math.max(0, speed - 8)) * pace * (0.65 + 0.35 * soft);
  const down = Math.max(0.3, r.normal(2.3, 0.35)) * pace * (0.6 + 0.4 * soft) * (index <= 2 ? 0.6 : 1);
  const peak = r.between(0.003, 0.006) * (effort < 0.85 ? 1.4 : 1) * (1.8 - 0.8 * soft);
  const rate = Math.max(0.7 / peak, (0.84 * Math.max(down, forward)) / (0.012 + 0.004 * (1 - soft)));
  return {
    forward,
    down,
    spin: r.normal(460, 110) * (phase === 'walking' ? 0.2 : 0.6 + 0.4 * Math.min(1, speed / 10)) * degrees,
    rate,
    spinRate: r.between(120, 220),
  };
}
