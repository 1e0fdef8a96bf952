import type { Contact } from '../../shared/analysis.ts';
import type { Mounting, Side } from '../../shared/words.ts';
import type { FootContact } from '../events/foot-contact.ts';
import type { AnalysisSettings } from '../settings/settings.ts';

const MS = 1000;

/** A foot contact on the common clock, with the side it belongs to. */
export interface SidedContact extends FootContact {
  mounting: Mounting;
  side: Side;
}

/** One row of the result with its instants filled in and everything that needs neighbours still empty. */
export function contactRow(contact: SidedContact, repetition: number, step: number): Contact {
  const { touchdown_s, toe_off_s, contact_time_s_u } = contact;
  return {
    repetition,
    step,
    side: contact.side,
    touchdown_s,
    toe_off_s,
    contact_time_ms: toe_off_s === null ? null : (toe_off_s - touchdown_s) * MS,
    flight_time_ms: null,
    swing_time_ms: null,
    step_time_ms: null,
    step_rate_hz: null,
    step_length_m: null,
    speed_mps: null,
    distance_m: null,
    phase: null,
    confidence: contact.confidence,
    touchdown_s_u: contact.touchdown_s_u,
    toe_off_s_u: contact.toe_off_s_u,
    contact_time_ms_u: toe_off_s === null || contact_time_s_u === null ? null : contact_time_s_u * MS,
    flight_time_ms_u: null,
    swing_time_ms_u: null,
    step_time_ms_u: null,
    step_rate_hz_u: null,
    step_length_m_u: null,
    speed_mps_u: null,
    distance_m_u: null,
    touchdown_raw_s: contact.touchdown_raw_s,
    toe_off_raw_s: contact.toe_off_raw_s,
    duty_factor: null,
    duty_factor_u: null,
    stride_time_ms: null,
    stride_time_ms_u: null,
    stride_length_m: null,
    stride_length_m_u: null,
    contact_length_m: null,
    assumes_symmetry: false,
    spatial_source: null,
    foot_pitch_touchdown_deg: null,
    foot_pitch_touchdown_deg_u: null,
    foot_pitch_toe_off_deg: null,
    foot_pitch_toe_off_deg_u: null,
    foot_progression_deg: null,
    foot_progression_deg_u: null,
    shank_rotation_deg: null,
    shank_rotation_deg_u: null,
    shank_angle_touchdown_deg: null,
    shank_angle_touchdown_deg_u: null,
    heel_recovery_height_m: null,
    heel_recovery_height_m_u: null,
    swing_fold_deg: null,
    swing_fold_deg_u: null,
    peak_swing_rate_dps: null,
    peak_contact_rate_dps: null,
    vertical_force_bw: null,
    vertical_force_bw_u: null,
    vertical_stiffness_kn_per_m: null,
    vertical_stiffness_kn_per_m_u: null,
    leg_stiffness_kn_per_m: null,
    leg_stiffness_kn_per_m_u: null,
    reasons: { ...contact.reasons },
  };
}

/**
 * Takes away what a slow recording cannot tell: below the rate that a contact time needs, toe-off and everything built on
 * it stay empty, and a touchdown is no better than half a sample interval.
 * @param row changed in place, before step times are filled in
 */
export function limitToRate(row: Contact, rate_hz: number, settings: AnalysisSettings): void {
  const least = settings.quality.rate_for_contact_time_hz;
  if (rate_hz >= least) return;
  const why = `${Math.round(rate_hz)} samples a second cannot give a contact time; at least ${least} are needed`;
  row.touchdown_s_u = Math.hypot(row.touchdown_s_u ?? 0, 0.5 / rate_hz);
  withoutToeOff(row, why);
}

/** Takes toe-off and everything built on it away. @param row changed in place, before step times are filled in */
export function withoutToeOff(row: Contact, why: string): void {
  row.toe_off_s = null;
  row.toe_off_s_u = null;
  row.toe_off_raw_s = null;
  row.contact_time_ms = null;
  row.contact_time_ms_u = null;
  for (const field of ['toe_off_s', 'contact_time_ms', 'flight_time_ms', 'swing_time_ms', 'duty_factor']) {
    row.reasons[field] = why;
  }
}
