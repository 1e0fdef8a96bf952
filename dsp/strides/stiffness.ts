import { because } from '../../shared/reason.ts';
import type { Conditions, Contact } from '../../shared/analysis.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import type { StrideSettings } from '../settings/strides.ts';

/** Spring-mass values of one step. */
export interface SpringMass {
  /** Greatest vertical force, N. */
  force_max_n: number;
  /** Lowering of the body's centre from touchdown to mid-contact, m. */
  lowering_m: number;
  /** Shortening of the leg, m; NaN where the leg cannot reach that far. */
  leg_shortening_m: number;
  vertical_stiffness_npm: number;
  leg_stiffness_npm: number;
}

export interface SpringMassInput {
  body_mass_kg: number;
  speed_mps: number;
  leg_length_m: number;
  contact_time_s: number;
  flight_time_s: number;
  gravity_mps2?: number;
}

/**
 * Vertical and leg stiffness from contact and flight time, taking the vertical force for half a sine wave. Steady
 * running on the level only. Stiffness comes out 0.7 to 6.9 % below force plates.
 * Source: Morin, Dalleau, Kyrolainen, Jeannin and Belli 2005, J Appl Biomech 21:167-180, doi 10.1123/jab.21.2.167.
 */
export function springMass({
  body_mass_kg: m,
  speed_mps: v,
  leg_length_m: l,
  contact_time_s: tc,
  flight_time_s: tf,
  gravity_mps2: g = STANDARD_GRAVITY_MPS2,
}: SpringMassInput): SpringMass {
  const force_max_n = ((m * g * Math.PI) / 2) * (tf / tc + 1);
  const lowering_m = (force_max_n * tc * tc) / (m * Math.PI ** 2) - (g * tc * tc) / 8;
  const leg_shortening_m = l - Math.sqrt(l * l - (v * tc * v * tc) / 4) + lowering_m;
  return {
    force_max_n,
    lowering_m,
    leg_shortening_m,
    vertical_stiffness_npm: force_max_n / lowering_m,
    leg_stiffness_npm: force_max_n / leg_shortening_m,
  };
}

/** A leg's length and how well it is known. */
export interface LegLength {
  length_m: number;
  length_m_u: number;
}

/**
 * As measured, or 0.53 of the stature; null when neither is known.
 * @returns m, with its standard uncertainty
 */
export function legLength({ leg_length_m, stature_m }: Conditions, settings: StrideSettings): LegLength | null {
  const { leg_share_of_stature: share, leg_share_u, leg_length_m_u } = settings.stiffness;
  if (leg_length_m !== null) return { length_m: leg_length_m, length_m_u: leg_length_m_u };
  return stature_m === null ? null : { length_m: share * stature_m, length_m_u: leg_share_u * share * stature_m };
}

/**
 * Mean vertical force, vertical and leg stiffness of every contact that has what they need, stiffness only where the speed is steady
 * (`steady_share`). Rows are changed in place.
 * @param body_mass_kg null where it is not known: then no stiffness is filled
 */
export function fillStiffness(
  rows: Contact[],
  body_mass_kg: number | null,
  leg: LegLength | null,
  settings: StrideSettings,
): void {
  const { stiffness_share_u, force_share_u, steady_share } = settings.stiffness;
  rows.forEach((row, i) => {
    const { contact_time_ms, flight_time_ms, step_time_ms, speed_mps } = row;
    // Without flight it is no spring-mass running, and both feet share the weight.
    if (contact_time_ms === null || step_time_ms === null || flight_time_ms === null || flight_time_ms <= 0) return;
    const [tc, step] = [contact_time_ms / 1000, step_time_ms / 1000];
    const [tc_u, step_u] = [(row.contact_time_ms_u ?? 0) / 1000, (row.step_time_ms_u ?? 0) / 1000];
    // As step time over contact time: a toe-off that is wrong moves only the second.
    row.vertical_force_bw = step / tc;
    row.vertical_force_bw_u = row.vertical_force_bw * Math.hypot(step_u / step, tc_u / tc, force_share_u);
    if (body_mass_kg === null) return;
    // The model is one of steady running: where the speed changes from step to step it says nothing.
    const neighbour = rows[i + 1]?.speed_mps ?? rows[i - 1]?.speed_mps ?? null;
    if (speed_mps !== null && neighbour !== null && Math.abs(neighbour / speed_mps - 1) > steady_share) {
      row.reasons.vertical_stiffness_kn_per_m = NOT_STEADY;
      row.reasons.leg_stiffness_kn_per_m = NOT_STEADY;
      return;
    }
    const input = { body_mass_kg, speed_mps: 0, leg_length_m: 1, contact_time_s: tc, flight_time_s: step - tc };
    row.vertical_stiffness_kn_per_m = springMass(input).vertical_stiffness_npm / 1000;
    const vertical = (change: Partial<SpringMassInput>) => springMass({ ...input, ...change }).vertical_stiffness_npm;
    row.vertical_stiffness_kn_per_m_u = propagated(vertical, input, { tc_u, step_u }, stiffness_share_u) / 1000;
    if (leg === null || speed_mps === null || speed_mps * tc >= 2 * leg.length_m) return;
    const whole = { ...input, speed_mps, leg_length_m: leg.length_m };
    row.leg_stiffness_kn_per_m = springMass(whole).leg_stiffness_npm / 1000;
    const ofLeg = (change: Partial<SpringMassInput>) => springMass({ ...whole, ...change }).leg_stiffness_npm;
    const errors = { tc_u, step_u, v_u: row.speed_mps_u ?? 0, leg_u: leg.length_m_u };
    row.leg_stiffness_kn_per_m_u = propagated(ofLeg, whole, errors, stiffness_share_u) / 1000;
  });
}

const NOT_STEADY = because('not_steady');

/** First-order propagation with numerical derivatives (GUM, JCGM 100:2008, 5.1.2), and the model's own error. */
function propagated(
  stiffness: (change: Partial<SpringMassInput>) => number,
  { contact_time_s, flight_time_s, speed_mps, leg_length_m }: SpringMassInput,
  { tc_u, step_u, v_u = 0, leg_u = 0 }: { tc_u: number; step_u: number; v_u?: number; leg_u?: number },
  model_share_u: number,
): number {
  const value = stiffness({});
  return Math.hypot(
    // Toe-off ends the contact and begins the flight: an error of it moves both, in opposite directions.
    stiffness({ contact_time_s: contact_time_s + tc_u, flight_time_s: flight_time_s - tc_u }) - value,
    stiffness({ flight_time_s: flight_time_s + step_u }) - value,
    stiffness({ speed_mps: speed_mps + v_u }) - value,
    stiffness({ leg_length_m: leg_length_m + leg_u }) - value,
    model_share_u * value,
  );
}
