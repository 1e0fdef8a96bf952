import type { Contact } from '../../shared/analysis.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import type { StrideSettings } from '../settings-strides.ts';

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

/**
 * Mean vertical force, vertical and leg stiffness of every contact that has what they need. Rows are changed in place.
 * @param leg_length_m measured, or 0.53 of the stature; null when neither is known
 */
export function fillStiffness(
  rows: Contact[],
  body_mass_kg: number | null,
  leg_length_m: number | null,
  settings: StrideSettings,
): void {
  const { stiffness_share_u, force_share_u } = settings.stiffness;
  for (const row of rows) {
    const { contact_time_ms, flight_time_ms, speed_mps } = row;
    // Without flight it is no spring-mass running, and both feet share the weight.
    if (contact_time_ms === null || flight_time_ms === null || flight_time_ms <= 0) continue;
    const [tc, tf] = [contact_time_ms / 1000, flight_time_ms / 1000];
    const [tc_u, tf_u] = [(row.contact_time_ms_u ?? 0) / 1000, (row.flight_time_ms_u ?? 0) / 1000];
    const ratio_u = (tf / tc) * Math.hypot(tc_u / tc, tf_u / tf);
    row.vertical_force_bw = (tc + tf) / tc;
    row.vertical_force_bw_u = Math.hypot(ratio_u, force_share_u * row.vertical_force_bw);
    if (body_mass_kg === null) continue;
    const input = { body_mass_kg, speed_mps: 0, leg_length_m: 1, contact_time_s: tc, flight_time_s: tf };
    row.vertical_stiffness_kn_per_m = springMass(input).vertical_stiffness_npm / 1000;
    row.vertical_stiffness_kn_per_m_u =
      stiffnessError(input, tc_u, tf_u, 0, 'vertical_stiffness_npm', stiffness_share_u) / 1000;
    if (leg_length_m === null || speed_mps === null || speed_mps * tc >= 2 * leg_length_m) continue;
    const whole = { ...input, speed_mps, leg_length_m };
    row.leg_stiffness_kn_per_m = springMass(whole).leg_stiffness_npm / 1000;
    row.leg_stiffness_kn_per_m_u =
      stiffnessError(whole, tc_u, tf_u, row.speed_mps_u ?? 0, 'leg_stiffness_npm', stiffness_share_u) / 1000;
  }
}

/** First-order propagation with numerical derivatives (GUM, JCGM 100:2008, 5.1.2), and the model's own error. */
function stiffnessError(
  input: SpringMassInput,
  tc_u: number,
  tf_u: number,
  v_u: number,
  field: 'vertical_stiffness_npm' | 'leg_stiffness_npm',
  model_share_u: number,
): number {
  const value = springMass(input)[field];
  const effect = (change: Partial<SpringMassInput>): number => springMass({ ...input, ...change })[field] - value;
  // Toe-off ends the contact and begins the flight: an error of it moves both, in opposite directions.
  return Math.hypot(
    effect({ contact_time_s: input.contact_time_s + tc_u, flight_time_s: input.flight_time_s - tc_u }),
    effect({ flight_time_s: input.flight_time_s + Math.sqrt(Math.max(0, tf_u * tf_u - tc_u * tc_u)) }),
    effect({ speed_mps: input.speed_mps + v_u }),
    model_share_u * value,
  );
}
