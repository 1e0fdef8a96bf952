import type { ContactQuantity } from '../../../shared/analysis.ts';

/** Quantities offered as a stride profile. */
export const PROFILE_QUANTITIES = [
  'contact_time_ms',
  'flight_time_ms',
  'step_rate_hz',
  'step_length_m',
  'speed_mps',
] as const satisfies readonly ContactQuantity[];
export type ProfileQuantity = (typeof PROFILE_QUANTITIES)[number];

/** Columns of the table beside the profile. */
export const TABLE_QUANTITIES = [
  'contact_time_ms',
  'flight_time_ms',
  'step_rate_hz',
  'step_length_m',
  'speed_mps',
  'distance_m',
] as const satisfies readonly ContactQuantity[];

/** More of each contact, shown on request: angles, forces, swing. */
export const DETAIL_QUANTITIES = [
  'touchdown_s',
  'toe_off_s',
  'swing_time_ms',
  'duty_factor',
  'stride_length_m',
  'contact_length_m',
  'foot_pitch_touchdown_deg',
  'foot_pitch_toe_off_deg',
  'foot_progression_deg',
  'shank_rotation_deg',
  'shank_angle_touchdown_deg',
  'heel_recovery_height_m',
  'swing_fold_deg',
  'peak_swing_rate_dps',
  'peak_contact_rate_dps',
  'vertical_force_bw',
  'vertical_stiffness_kn_per_m',
  'leg_stiffness_kn_per_m',
] as const satisfies readonly ContactQuantity[];
