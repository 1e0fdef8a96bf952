/**
 * What goes into and comes out of `dsp.analyse`. Field names are the same in CSV, SQL, JSON and here (shared/fields.ts
 * defines each one). `null` means 'not measurable', never a guess. A standard uncertainty is the field plus `_u`.
 */
import type { Fault } from './fault.ts';
import type { SensorRecording } from './sample-block.ts';
import type {
  CheckFinding,
  ClockStart,
  Fitness,
  Mounting,
  MountingCheckName,
  Phase,
  Side,
  StartStyle,
  TimingMethod,
  TravelKind,
} from './words.ts';

export interface Split {
  distance_m: number;
  split_time_s: number;
}

/** What is known of where and against which clock the repetition was run. Everything may be unknown. */
export interface Course {
  distance_m: number | null;
  /** Time over the whole course. */
  time_s: number | null;
  splits: Split[];
  clock: ClockStart;
  timing_method: TimingMethod | null;
  start_style: StartStyle | null;
  /** Set for a treadmill: speed of every contact. */
  belt_speed_mps: number | null;
}

export const UNKNOWN_COURSE: Course = {
  distance_m: null,
  time_s: null,
  splits: [],
  clock: 'first_movement',
  timing_method: null,
  start_style: null,
  belt_speed_mps: null,
};

/** The athlete's body and the air, for the kinetic estimates only. */
export interface Conditions {
  body_mass_kg: number | null;
  stature_m: number | null;
  leg_length_m: number | null;
  temperature_c: number | null;
  pressure_hpa: number | null;
  wind_mps: number | null;
}

export const UNKNOWN_CONDITIONS: Conditions = {
  body_mass_kg: null,
  stature_m: null,
  leg_length_m: null,
  temperature_c: null,
  pressure_hpa: null,
  wind_mps: null,
};

export interface AnalysisInput {
  /** One sensor, or two of the same mounting on opposite sides. */
  sensors: SensorRecording[];
  course: Course;
  conditions: Conditions;
}

/** One ground contact; one row of steps.csv. Numbers are null when not measurable. */
export interface Contact {
  /** 1-based number of the repetition within the recording. */
  repetition: number;
  /** 1-based number of the contact within the repetition, over both feet in time order. */
  step: number;
  side: Side;
  touchdown_s: number;
  toe_off_s: number | null;
  contact_time_ms: number | null;
  /** From this contact's toe-off to the other foot's next touchdown. */
  flight_time_ms: number | null;
  /** From this contact's toe-off to the same foot's next touchdown. */
  swing_time_ms: number | null;
  /** From this contact's touchdown to the other foot's next touchdown. */
  step_time_ms: number | null;
  step_rate_hz: number | null;
  /** Distance of the body over this step (this touchdown to the other foot's next). */
  step_length_m: number | null;
  /** step_length_m / step_time. */
  speed_mps: number | null;
  /** Distance of the body from the start line at this touchdown. */
  distance_m: number | null;
  phase: Phase | null;
  /** 0 to 1: how sure the detector is that this is a running contact with these two instants. */
  confidence: number;

  touchdown_s_u: number | null;
  toe_off_s_u: number | null;
  contact_time_ms_u: number | null;
  flight_time_ms_u: number | null;
  swing_time_ms_u: number | null;
  step_time_ms_u: number | null;
  step_rate_hz_u: number | null;
  step_length_m_u: number | null;
  speed_mps_u: number | null;
  distance_m_u: number | null;

  /** Before any correction for known bias. */
  touchdown_raw_s: number | null;
  toe_off_raw_s: number | null;
  duty_factor: number | null;
  duty_factor_u: number | null;
  stride_time_ms: number | null;
  stride_time_ms_u: number | null;
  stride_length_m: number | null;
  stride_length_m_u: number | null;
  contact_length_m: number | null;
  /** True when flight or step values rest on one foot alone and assume left and right alike. */
  assumes_symmetry: boolean;
  /** Which source gave step length and speed: 'timing', 'belt', 'foot_sensor', 'combined'; null when none. */
  spatial_source: 'timing' | 'belt' | 'foot_sensor' | 'combined' | null;

  /** Angles and shape of the step (foot: pitch and progression; shank: rotation). Definitions in shared/fields.ts. */
  foot_pitch_touchdown_deg: number | null;
  foot_pitch_touchdown_deg_u: number | null;
  foot_pitch_toe_off_deg: number | null;
  foot_pitch_toe_off_deg_u: number | null;
  foot_progression_deg: number | null;
  foot_progression_deg_u: number | null;
  shank_rotation_deg: number | null;
  shank_rotation_deg_u: number | null;
  shank_angle_touchdown_deg: number | null;
  shank_angle_touchdown_deg_u: number | null;
  heel_recovery_height_m: number | null;
  heel_recovery_height_m_u: number | null;
  swing_fold_deg: number | null;
  swing_fold_deg_u: number | null;
  peak_swing_rate_dps: number | null;
  peak_contact_rate_dps: number | null;

  vertical_force_bw: number | null;
  vertical_force_bw_u: number | null;
  vertical_stiffness_kn_per_m: number | null;
  vertical_stiffness_kn_per_m_u: number | null;
  leg_stiffness_kn_per_m: number | null;
  leg_stiffness_kn_per_m_u: number | null;

  /** Field name -> plain words why it is null or why its uncertainty is wide. */
  reasons: Record<string, string>;
}

/** v(t) = vmax (1 - exp(-(t - t0)/tau)). */
export interface SpeedCurve {
  vmax_mps: number;
  vmax_mps_u: number;
  tau_s: number;
  tau_s_u: number;
  /** Clock zero minus first movement, seconds; 0 when the clock starts with the movement. */
  time_shift_s: number;
  time_shift_s_u: number;
  residual_s: number;
  from: 'splits' | 'time and steps' | 'foot_sensor' | 'combined';
}

/**
 * Kinetic estimates from the acceleration curve, each with its standard uncertainty. Source: Samozino et al. 2016, doi
 * 10.1111/sms.12490.
 */
export interface AccelerationKinetics extends KineticQuantities, Record<`${keyof KineticQuantities}_u`, number> {}

export interface KineticQuantities {
  horizontal_force_f0_n: number;
  horizontal_force_f0_n_per_kg: number;
  velocity_v0_mps: number;
  power_max_w: number;
  power_max_w_per_kg: number;
  ratio_of_force_max: number;
  ratio_of_force_slope: number;
  force_velocity_slope: number;
}

/** Mean, spread and uncertainty of one quantity over a set of contacts. */
export interface QuantitySummary {
  mean: number;
  /** Standard deviation between contacts (n - 1). */
  sd: number;
  /** Standard uncertainty of the mean, measurement error included. */
  mean_u: number;
  n: number;
}

/** A contact field name that holds a number. */
export type ContactQuantity = {
  [K in keyof Contact]: Contact[K] extends number | null ? K : never;
}[keyof Contact];

export interface RepetitionSummary {
  contacts: number;
  /** Over all contacts of the repetition. */
  all: Partial<Record<ContactQuantity, QuantitySummary>>;
  /** Over the contacts 'at speed': the maximum-speed phase, or all steady contacts on a treadmill. */
  at_speed: Partial<Record<ContactQuantity, QuantitySummary>>;
  /** Of the contacts at speed; of all where none is at speed. */
  left: Partial<Record<ContactQuantity, QuantitySummary>>;
  right: Partial<Record<ContactQuantity, QuantitySummary>>;
  speed_max_mps: number | null;
  speed_max_mps_u: number | null;
  distance_m: number | null;
  time_s: number | null;
}

export interface RepetitionResult {
  repetition: number;
  travel: TravelKind;
  /** First movement of the start; null when the recording starts while running. */
  first_movement_s: number | null;
  first_movement_s_u: number | null;
  /** When the course ends (its length reached); null when the length is unknown. */
  course_end_s: number | null;
  /** First and last instant of running. */
  start_s: number;
  end_s: number;
  contacts: Contact[];
  speed_curve: SpeedCurve | null;
  kinetics: AccelerationKinetics | null;
  summary: RepetitionSummary;
  /** Field name -> plain words why nothing could be said for the whole repetition. */
  reasons: Record<string, string>;
}

/** Stretches of the recording that are not repetitions. */
export interface OtherActivity {
  kind: 'standing' | 'walking' | 'jumping' | 'dropped' | 'other';
  start_s: number;
  end_s: number;
}

export interface QuantityVerdict {
  quantity: string;
  fitness: Fitness;
  why: string;
}

/**
 * Whether a sensor was worn as stated, judged from the motion alone: on the stated segment (foot or shank), on the stated side, without
 * ringing on its strap, without turning on the leg.
 */
export interface MountingCheck {
  check: MountingCheckName;
  finding: CheckFinding;
  /** What decides, its standard uncertainty, and the limit beyond which the finding is 'doubtful'; null where nothing was measured. */
  value: number | null;
  value_u: number | null;
  limit: number | null;
  unit: '1' | 'dB' | 'deg';
  /** Strides that the value rests on; null where it was not taken stride by stride. */
  strides: number | null;
  /** Plain words: what was seen against what is expected, or why nothing can be told. */
  why: string;
}

/** How good one sensor's recording is, and for what. One entry of quality.json. */
export interface SensorQuality {
  side: Side;
  mounting: Mounting;
  sampling_rate_hz: number;
  /** SD of the sample intervals, ms. */
  jitter_ms: number;
  samples: number;
  duration_s: number;
  lost_samples: number;
  gaps: { start_s: number; end_s: number; lost_samples: number | null }[];
  acc_clipped_samples: number;
  gyr_clipped_samples: number;
  contacts_with_clipping: number;
  /** Norm of acceleration at rest, m/s2; null when the recording holds no rest. */
  resting_norm_mps2: number | null;
  gyr_bias_radps: number | null;
  acc_noise_mps2: number | null;
  gyr_noise_radps: number | null;
  /** Frequency below which 99 % of the acceleration's power lies while running, Hz. */
  bandwidth_hz: number | null;
  /** Absent in analyses made before there were such checks. */
  mounting_checks?: MountingCheck[];
  verdicts: QuantityVerdict[];
  faults: Fault[];
}

export interface Provenance {
  /** Version of the project that made the result. */
  version: string;
  /** Names the detection method and its revision, e.g. 'contacts-1'. */
  method: string;
  settings: Record<string, unknown>;
  settings_sha256: string;
  /** SHA-256 of each raw file, in the order of `sensors`. */
  raw_sha256: string[];
  /** Filters as they acted, e.g. effective order and -3 dB frequency after both passes. */
  filters: { channel: string; kind: string; order: number; cutoff_hz: number; passes: number }[];
}

/** Everything one analysis says. A pure function of (input, settings, version). */
export interface Analysis {
  method: string;
  repetitions: RepetitionResult[];
  other_activity: OtherActivity[];
  quality: SensorQuality[];
  filters: Provenance['filters'];
  /** What was dropped or doubted, with reasons. */
  faults: Fault[];
}
