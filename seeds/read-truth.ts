/** What is true about a simulated recording: read off the simulated ground force, the plan and the motion. */
import { STANDARD_GRAVITY_MPS2 } from '../shared/units.ts';
import type { Phase } from '../shared/words.ts';
import type { LegMotion } from './motion/leg-motion.ts';
import type { StepPlanner } from './motion/plan-repetition.ts';
import { distanceAt, type Plant } from './motion/step-ground.ts';

export interface TrueContact {
  repetition: number;
  side: 'left' | 'right';
  /** Vertical force rises above and falls below the threshold; seconds from the world's zero (left's first sample). */
  touchdown_s: number;
  toe_off_s: number;
  /** Distance of the body from this touchdown to the other foot's next; null for the last contact. */
  step_length_m: number | null;
  /** Foot to same foot's next place; null for the last two. */
  stride_length_m: number | null;
  speed_mps: number;
  /** Of the body from the start line at touchdown. */
  distance_m: number;
  phase: Phase | null;
  foot_pitch_touchdown_deg: number;
  foot_pitch_toe_off_deg: number;
  shank_rotation_deg: number;
  shank_angle_touchdown_deg: number;
  /** Largest vertical force over body weight: a check of plausibility. */
  peak_force_bw: number;
}

export interface TrueRepetition {
  repetition: number;
  first_movement_s: number | null;
  /** Time from first movement to the body's passing of the course's end, and of the splits asked for. */
  time_s: number | null;
  splits: { distance_m: number; split_time_s: number }[];
  top_speed_mps: number;
  time_constant_s: number | null;
}

export interface Truth {
  contacts: TrueContact[];
  repetitions: TrueRepetition[];
}

/** A foot is on the ground while the vertical force is above this, N: what the plates of the recordings go by. */
export const CONTACT_THRESHOLD_N = 50;

/** Contacts of a plan, as a force plate under the whole course would tell them. */
export function readContacts(
  planner: StepPlanner,
  legs: Record<'left' | 'right', LegMotion>,
  end_s: number,
  threshold_n: number,
  body_mass_kg: number,
): TrueContact[] {
  const runs = planner.plants.filter((plant) => plant.kind === 'run');
  const contacts: TrueContact[] = [];
  /** Pitch at 40 % of each contact: its median is the foot's zero (shared/fields.ts). */
  const flat = { left: [] as number[], right: [] as number[] };
  runs.forEach((plant, k) => {
    const leg = legs[plant.side];
    const at = forceCrossings(leg, plant, threshold_n);
    if (!at || at.touchdown_s < 0 || at.toe_off_s > end_s - 0.06) return;
    const next = runs[k + 1]?.repetition === plant.repetition ? runs[k + 1] : undefined;
    const same = runs[k + 2]?.repetition === plant.repetition ? runs[k + 2] : undefined;
    const startX = planner.repetitions[plant.repetition - 1]?.start_x_m ?? 0;
    const degrees = (column: Float64Array, t: number) =>
      (column[Math.min(column.length - 1, Math.max(0, Math.round((t - leg.start_s) * leg.rate_hz)))] * 180) / Math.PI;
    flat[plant.side].push(degrees(leg.foot_pitch, at.touchdown_s + 0.4 * (at.toe_off_s - at.touchdown_s)));
    contacts.push({
      repetition: plant.repetition,
      side: plant.side,
      touchdown_s: at.touchdown_s,
      toe_off_s: at.toe_off_s,
      step_length_m: next
        ? distanceAt(planner.travel, next.touchdown_s) - distanceAt(planner.travel, plant.touchdown_s)
        : null,
      stride_length_m: same ? same.ball_x_m - plant.ball_x_m : null,
      speed_mps: plant.speed_mps,
      distance_m: distanceAt(planner.travel, plant.touchdown_s) - startX,
      phase: plant.phase,
      foot_pitch_touchdown_deg: degrees(leg.foot_pitch, at.touchdown_s),
      foot_pitch_toe_off_deg: degrees(leg.foot_pitch, at.toe_off_s),
      shank_rotation_deg: degrees(leg.shank_pitch, at.toe_off_s) - degrees(leg.shank_pitch, at.touchdown_s),
      shank_angle_touchdown_deg: -degrees(leg.shank_pitch, at.touchdown_s),
      peak_force_bw: at.peak_n / (body_mass_kg * STANDARD_GRAVITY_MPS2),
    });
  });
  for (const contact of contacts) {
    const own = [...flat[contact.side]].sort((a, b) => a - b);
    const zero = own[Math.floor(own.length / 2)];
    contact.foot_pitch_touchdown_deg -= zero;
    contact.foot_pitch_toe_off_deg -= zero;
  }
  return contacts;
}

/** First rise above and last fall below the threshold around the intended contact, between samples by a straight line. */
function forceCrossings(leg: LegMotion, plant: Plant, threshold: number) {
  const f = leg.force_n;
  const from = Math.max(1, Math.round((plant.touchdown_s - 0.01 - leg.start_s) * leg.rate_hz));
  const to = Math.min(f.length - 1, Math.round((plant.toe_off_s + 0.06 - leg.start_s) * leg.rate_hz));
  let first = from;
  while (first < to && f[first] <= threshold) first++;
  let last = to;
  while (last > first && f[last] <= threshold) last--;
  if (first >= to || last >= to) return null;
  let peak = 0;
  for (let i = first; i <= last; i++) peak = Math.max(peak, f[i]);
  const time = (i: number) => leg.start_s + i / leg.rate_hz;
  return {
    touchdown_s: time(first - (f[first] - threshold) / (f[first] - f[first - 1])),
    toe_off_s: time(last + (f[last] - threshold) / (f[last] - f[last + 1])),
    peak_n: peak,
  };
}
