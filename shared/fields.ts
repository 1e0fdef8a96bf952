/**
 * The dictionary of every measured field: one spelling for CSV, SQL, JSON and TypeScript, with unit and definition.
 * The exports' data dictionary, the table headers of the view and the command line's table are built from it.
 */
import type { ContactQuantity } from './analysis.ts';

export interface FieldDefinition {
  /** Words on screen and in tables. */
  label: string;
  /** Unit as printed; '1' for a pure number. */
  unit: string;
  /** Decimals on screen. CSV files carry more. */
  decimals: number;
  definition: string;
  /** Definition's or method's source; 'common practice' where the trade has no single one. */
  source: string;
}

/** Quantities of one contact, in the order of columns. Each except those of `WITHOUT_UNCERTAINTY` has a `_u` twin. */
export const CONTACT_FIELDS: Partial<Record<ContactQuantity, FieldDefinition>> = {
  touchdown_s: {
    label: 'touchdown',
    unit: 's',
    decimals: 3,
    definition: 'First instant of the foot on the ground, seconds from the first sample.',
    source: 'common practice; force plates use a vertical force threshold, 10 to 50 N',
  },
  toe_off_s: {
    label: 'toe-off',
    unit: 's',
    decimals: 3,
    definition: 'Last instant of that contact, seconds from the first sample.',
    source: 'common practice',
  },
  contact_time_ms: {
    label: 'contact time',
    unit: 'ms',
    decimals: 0,
    definition: 'Toe-off minus touchdown of the same foot.',
    source: 'common practice',
  },
  flight_time_ms: {
    label: 'flight time',
    unit: 'ms',
    decimals: 0,
    definition: "The other foot's next touchdown minus this toe-off; not above zero means no flight.",
    source: 'common practice',
  },
  swing_time_ms: {
    label: 'swing time',
    unit: 'ms',
    decimals: 0,
    definition: "The same foot's next touchdown minus this toe-off.",
    source: 'common practice',
  },
  step_time_ms: {
    label: 'step time',
    unit: 'ms',
    decimals: 0,
    definition: "The other foot's next touchdown minus this touchdown.",
    source: 'common practice',
  },
  step_rate_hz: {
    label: 'step rate',
    unit: 'Hz',
    decimals: 2,
    definition: 'Steps a second: 1 / step time.',
    source: 'common practice',
  },
  step_length_m: {
    label: 'step length',
    unit: 'm',
    decimals: 2,
    definition: "Distance the body travels from this touchdown to the other foot's next touchdown.",
    source: 'de Ruiter and van Dieen 2019, doi 10.3390/sports7090202',
  },
  speed_mps: {
    label: 'speed',
    unit: 'm/s',
    decimals: 2,
    definition: 'Mean speed over the step: step length / step time.',
    source: 'identity',
  },
  distance_m: {
    label: 'distance',
    unit: 'm',
    decimals: 2,
    definition: 'Distance of the body from the start line at touchdown.',
    source: 'common practice',
  },
  duty_factor: {
    label: 'duty factor',
    unit: '1',
    decimals: 3,
    definition: 'Contact time / stride time of the same foot.',
    source: 'common practice',
  },
  stride_time_ms: {
    label: 'stride time',
    unit: 'ms',
    decimals: 0,
    definition: "The same foot's next touchdown minus this touchdown.",
    source: 'common practice',
  },
  stride_length_m: {
    label: 'stride length',
    unit: 'm',
    decimals: 2,
    definition: "Distance the foot travels from this contact to the same foot's next contact.",
    source: 'common practice',
  },
  contact_length_m: {
    label: 'contact length',
    unit: 'm',
    decimals: 2,
    definition: 'Distance the body travels during the contact: speed times contact time.',
    source: 'Weyand et al. 2000, J Appl Physiol 89:1991-1999 (from memory)',
  },
  foot_pitch_touchdown_deg: {
    label: 'foot pitch at touchdown',
    unit: 'deg',
    decimals: 0,
    definition: 'Pitch of the foot at touchdown, heel up positive; zero is the median pitch at 40 % of contact.',
    source: 'common practice',
  },
  foot_pitch_toe_off_deg: {
    label: 'foot pitch at toe-off',
    unit: 'deg',
    decimals: 0,
    definition: 'Pitch of the foot at toe-off, heel up positive; zero is the median pitch at 40 % of contact.',
    source: 'common practice',
  },
  foot_progression_deg: {
    label: 'foot progression',
    unit: 'deg',
    decimals: 0,
    definition: 'Angle of the foot against the direction of travel at 40 % of contact, toe out positive.',
    source: 'common practice',
  },
  shank_rotation_deg: {
    label: 'shank rotation',
    unit: 'deg',
    decimals: 0,
    definition: 'Forward rotation of the shank from touchdown to toe-off.',
    source: 'common practice',
  },
  shank_angle_touchdown_deg: {
    label: 'shank angle at touchdown',
    unit: 'deg',
    decimals: 0,
    definition: 'Angle of the shank to the vertical at touchdown; positive: foot ahead of the knee (reaching).',
    source: 'common practice',
  },
  heel_recovery_height_m: {
    label: 'heel recovery height',
    unit: 'm',
    decimals: 2,
    definition: 'Greatest height of the foot sensor above its height at mid-contact, during the following swing.',
    source: 'common practice',
  },
  swing_fold_deg: {
    label: 'fold in swing',
    unit: 'deg',
    decimals: 0,
    definition: 'Greatest backward rotation of the segment in the following swing, from its angle at mid-contact.',
    source: 'own definition: stands for how far the knee folds',
  },
  peak_swing_rate_dps: {
    label: 'peak swing rate',
    unit: 'deg/s',
    decimals: 0,
    definition: 'Greatest forward rotation rate of the segment in the following swing.',
    source: 'common practice',
  },
  peak_contact_rate_dps: {
    label: 'peak contact rate',
    unit: 'deg/s',
    decimals: 0,
    definition:
      'Greatest rotation rate of the segment during contact, heel rising (foot) or knee moving forward (shank).',
    source: 'common practice',
  },
  vertical_force_bw: {
    label: 'mean vertical force',
    unit: 'BW',
    decimals: 2,
    definition:
      'Mean vertical ground force during contact over body weight: (contact time + flight time) / contact time.',
    source: 'identity of steady running',
  },
  vertical_stiffness_kn_per_m: {
    label: 'vertical stiffness',
    unit: 'kN/m',
    decimals: 1,
    definition: 'Peak force over lowering of the body, sine-wave force model.',
    source: 'Morin et al. 2005, J Appl Biomech 21:167-180',
  },
  leg_stiffness_kn_per_m: {
    label: 'leg stiffness',
    unit: 'kN/m',
    decimals: 1,
    definition: 'Peak force over shortening of the leg, sine-wave force model.',
    source: 'Morin et al. 2005, J Appl Biomech 21:167-180',
  },
};

/** Quantities of a step or contact whose means stand in repetitions.csv, in its order. */
export const STEP_QUANTITIES = [
  'contact_time_ms',
  'flight_time_ms',
  'swing_time_ms',
  'step_time_ms',
  'step_rate_hz',
  'step_length_m',
  'speed_mps',
  'duty_factor',
] as const satisfies readonly ContactQuantity[];

/** Quantities offered as a stride profile, each with what is normal step by step. */
export const PROFILE_QUANTITIES = [
  'contact_time_ms',
  'flight_time_ms',
  'step_rate_hz',
  'step_length_m',
  'speed_mps',
] as const satisfies readonly (typeof STEP_QUANTITIES)[number][];
export type ProfileQuantity = (typeof PROFILE_QUANTITIES)[number];

/** Strides, angles, swing and force: what else of a contact is averaged over a repetition, and shown on request. */
export const FURTHER_QUANTITIES = [
  'stride_time_ms',
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

/** Columns of steps.csv, in order; the contract that later versions only append to. */
export const STEPS_CSV_COLUMNS = [
  'repetition',
  'step',
  'side',
  'touchdown_s',
  'toe_off_s',
  'contact_time_ms',
  'flight_time_ms',
  'swing_time_ms',
  'step_time_ms',
  'step_rate_hz',
  'step_length_m',
  'speed_mps',
  'distance_m',
  'phase',
  'confidence',
  'touchdown_s_u',
  'toe_off_s_u',
  'contact_time_ms_u',
  'flight_time_ms_u',
  'swing_time_ms_u',
  'step_time_ms_u',
  'step_rate_hz_u',
  'step_length_m_u',
  'speed_mps_u',
  'distance_m_u',
] as const;
