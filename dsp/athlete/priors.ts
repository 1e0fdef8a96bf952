/**
 * Day-to-day variation to go by until an athlete has six repetitions of the kind. `cv` is a share of the value, `sd` an
 * amount in the quantity's unit. For means over several steps at speed.
 */
export interface Prior {
  cv?: number;
  sd?: number;
  source: string;
}

const MEYERS = 'Meyers et al. 2015, Pediatr Exerc Sci 27:419-426: CV 3.8 to 5.0 % for means of two steps';
const GIRARD = 'Girard et al. 2016, IJSPP 11:432-439: CV of spring-mass values up to 6.5 % between days';
const PRACTICE = 'common practice; no published value for this quantity and sensor';

const PRIORS: Record<string, Prior> = {
  contact_time_ms: { cv: 0.04, source: MEYERS },
  step_length_m: { cv: 0.04, source: MEYERS },
  stride_length_m: { cv: 0.04, source: MEYERS },
  contact_length_m: { cv: 0.04, source: MEYERS },
  step_rate_hz: { cv: 0.04, source: MEYERS },
  step_time_ms: { cv: 0.04, source: MEYERS },
  stride_time_ms: { cv: 0.04, source: MEYERS },
  speed_mps: { cv: 0.042, source: MEYERS },
  speed_max_mps: { cv: 0.042, source: MEYERS },
  time_s: { cv: 0.015, source: 'CV 0.5 to 1.4 % for 0-20 m with a motion-sensor start (Sensors 2025, 25:2077)' },
  vertical_stiffness_kn_per_m: { cv: 0.065, source: GIRARD },
  leg_stiffness_kn_per_m: { cv: 0.065, source: GIRARD },
  contact_time_side_difference_ms: { sd: 5, source: `${PRACTICE}; 4 % of 120 ms` },
  step_time_side_difference_ms: { sd: 5, source: PRACTICE },
  foot_pitch_touchdown_deg: { sd: 3, source: PRACTICE },
  foot_pitch_toe_off_deg: { sd: 3, source: PRACTICE },
  foot_progression_deg: { sd: 3, source: PRACTICE },
  shank_rotation_deg: { sd: 3, source: PRACTICE },
  shank_angle_touchdown_deg: { sd: 2, source: PRACTICE },
  swing_fold_deg: { sd: 5, source: PRACTICE },
  heel_recovery_height_m: { sd: 0.04, source: PRACTICE },
  acceleration_end_m: { sd: 2, source: PRACTICE },
};

/** The prior of a quantity; 5 % where nobody published one. */
export function variationPrior(quantity: string): Prior {
  return PRIORS[quantity] ?? { cv: 0.05, source: PRACTICE };
}
