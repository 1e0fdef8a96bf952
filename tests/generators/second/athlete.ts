import { Random } from './random.ts';

export type Level = 'elite' | 'club' | 'youth';
export type Strike = 'heel' | 'midfoot' | 'forefoot';
export interface Athlete {
  name: string;
  stature: number; // m
  topSpeed: number; // m/s
  tau: number; // s, time constant of the speed curve
  topContact: number; // s at top speed
  firstContact: number; // s, first contact of a maximal sprint
  topRate: number; // steps/s at top speed
  asymmetry: number; // left minus right contact time over their mean
  contactCv: number;
  flightCv: number;
  strike: Strike; // in steady running
  softness: number; // 1 = usual landing speed, 0.25 = hardly any impact
  kneeFold: number; // rad added to the knee's peak flexion
  toeOut: number; // rad
  toePitch: number; // rad, foot pitch at toe-off at top speed
  leaving: LeavingWay;
}

/** How a person leaves the ground, in standard deviations from usual; `lazy`: the unloaded ankle swings slowly (two humps). */
export interface LeavingWay {
  fold: number;
  foldLength: number;
  foldRate: number;
  lean: number;
  lead: number;
  ring: number;
  fade: number;
  push: number;
  lazy: boolean;
}

const drawLeaving = (r: Random): LeavingWay => {
  const way = () => Math.max(-2, Math.min(2, r.normal(0, 1)));
  return {
    fold: way(),
    foldLength: way(),
    foldRate: way(),
    lean: way(),
    lead: way(),
    ring: way(),
    fade: way(),
    push: way(),
    lazy: r.next() < 1 / 6,
  };
};

const degrees = Math.PI / 180;

/** Level sets the magnitudes: elite 10.8-11.9 m/s, club 8.8-10.2, youth 7.2-8.6 (values as in Nagahara, Haugen, Coh). */
export function drawAthlete(name: string, level: Level): Athlete {
  const r = new Random(`athlete ${name}`);
  const topSpeed = { elite: r.between(10.8, 11.8), club: r.between(8.8, 10.3), youth: r.between(7.2, 8.6) }[level];
  const topContact = { elite: r.between(0.085, 0.101), club: r.between(0.1, 0.122), youth: r.between(0.108, 0.138) }[
    level
  ];
  const stature =
    level === 'youth' ? r.between(1.52, 1.72) : level === 'elite' ? r.between(1.74, 1.92) : r.between(1.66, 1.88);
  return {
    name,
    stature,
    topSpeed,
    tau: r.between(1.0, 1.5),
    topContact: Math.min(topContact, (0.512 * stature) / topSpeed), // contact length at most about 1.04 leg lengths
    firstContact: level === 'youth' ? r.between(0.185, 0.215) : r.between(0.168, 0.2),
    topRate: level === 'elite' ? r.between(4.35, 4.75) : r.between(3.95, 4.5),
    asymmetry: r.normal(0, 0.02),
    contactCv: r.between(0.02, 0.04),
    flightCv: r.between(0.02, 0.045),
    strike: r.pick(['heel', 'midfoot', 'forefoot'] as const),
    softness: r.pick([1, 1, 1, 0.7, 0.35, 0.2]),
    kneeFold: r.normal(0, 5) * degrees,
    toeOut: r.normal(6, 4) * degrees,
    toePitch: r.between(50, 60) * degrees,
    leaving: drawLeaving(r),
  };
}

/** Contact time at a steady speed: power law with exponent -0.8, about what 3.3 to 9.5 m/s shows in published tables. */
export const steadyContact = (a: Athlete, v: number): number => Math.min(0.3, a.topContact * (v / a.topSpeed) ** -0.8);
/** Step rate at a steady speed: near 2.65 Hz when jogging, rising steeply only near full speed (Weyand 2000). */
export const steadyRate = (a: Athlete, v: number): number => 2.65 + (a.topRate - 2.65) * (v / a.topSpeed) ** 3.2;
