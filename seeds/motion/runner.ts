import type { Random } from '../random.ts';
import { drawPushOffWay, drawSecondHump, type PushOffWay, type SecondHump } from './push-off.ts';

/** How an invented athlete runs: constants of the person, not of one step. */
export interface Runner {
  stature_m: number;
  body_mass_kg: number;
  /** Full speed when fresh, and time constant of the mono-exponential approach to it. */
  full_speed_mps: number;
  time_constant_s: number;
  /** -1 rearfoot, 0 midfoot, +1 forefoot; anything between. */
  strike: number;
  /** Contact and flight time relative to what is usual at a speed. */
  contact_factor: number;
  flight_factor: number;
  /** Added to the usual angles, degrees: foot at toe-off, shank at touchdown, fold in swing, toes out. */
  toe_off_pitch_offset_deg: number;
  shank_offset_deg: number;
  fold_offset_deg: number;
  toe_out_deg: { left: number; right: number };
  /** Relative difference of contact time, left minus right over mean. */
  side_difference: number;
  /** Foot speed against the ground at touchdown relative to usual when running: firm or soft landing. */
  landing_factor: number;
  /** How foot and shank turn about toe-off, and the second hump of the foot's rate where there is one. */
  push_off: PushOffWay;
  second_hump: SecondHump | null;
  /** Skew of the load over contact: below 1 early, above 1 late. */
  load_skew: number;
  /** How strongly, and how early (as a share of contact time before the load has gone) the leg picks the foot up; spring of the toes, N/m. */
  pick_up: number;
  pick_up_lead_share: number;
  toe_stiffness: number;
  /** Relative stiffness of sole and heel pad; damping of the landing in s/m; give of the ankle under the jolt. */
  sole_stiffness: number;
  sole_damping: number;
  ankle_yield: number;
  /** Foot against shank (toes pointed positive) in the first half of swing, degrees beyond usual. */
  point_early_deg: number;
  point_middle_deg: number;
  /** Size of frontal and transverse motion. */
  looseness: number;
  /** Relative standard deviation between steps. */
  step_variation: number;
}

/** Draws a plausible runner; every property is independent so that no two look alike to a detector. */
export function drawRunner(random: Random, given: Partial<Runner> = {}): Runner {
  const toeOut = random.within(7, 5);
  return {
    stature_m: random.within(1.74, 0.08),
    body_mass_kg: random.within(68, 9),
    full_speed_mps: random.within(8.6, 0.8),
    time_constant_s: random.within(1.2, 0.12),
    strike: random.uniform(-1, 1),
    contact_factor: random.within(1, 0.08),
    flight_factor: random.within(1, 0.08),
    toe_off_pitch_offset_deg: random.within(0, 5),
    shank_offset_deg: random.within(0, 3),
    fold_offset_deg: random.within(0, 9),
    toe_out_deg: { left: toeOut + random.within(0, 3), right: toeOut + random.within(0, 3) },
    side_difference: random.within(0, 0.015),
    landing_factor: random.uniform(0.55, 1.3),
    push_off: drawPushOffWay(random.fork('push off')),
    second_hump: drawSecondHump(random.fork('second hump')),
    load_skew: random.uniform(0.8, 1.05),
    pick_up: random.uniform(0.5, 1.5),
    pick_up_lead_share: random.uniform(0.05, 0.12),
    toe_stiffness: random.uniform(5000, 11000),
    sole_stiffness: random.uniform(0.6, 1.5),
    sole_damping: random.uniform(0.8, 1.6),
    ankle_yield: random.uniform(0.5, 1.5),
    point_early_deg: random.within(0, 5),
    point_middle_deg: random.within(0, 5),
    looseness: random.uniform(0.5, 1.4),
    step_variation: random.uniform(0.015, 0.03),
    ...given,
  };
}
