/**
 * What goes into and comes out of `dsp.analyse`. Field names are the same in CSV, SQL, JSON and here (shared/fields.ts
 * defines each one). `null` means 'not measurable', never a guess. A standard uncertainty is the field plus `_u`.
 */
import type { Fault } from './fault.ts';
import type { SensorRecording } from './sample-block.ts';
import type { EffectiveFilter, RepetitionResult, SensorQuality } from './schemas/analysis.ts';
import type { ClockStart, StartStyle, TimingMethod } from './words.ts';

export type { Contact, ContactQuantity } from './contact.ts';
export type {
  AccelerationKinetics,
  KineticQuantities,
  MissingContacts,
  MountingCheck,
  QuantitySummary,
  QuantityVerdict,
  RepetitionResult,
  RepetitionSummary,
  SensorQuality,
  SpeedCurve,
} from './schemas/analysis.ts';

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

/** Stretches of the recording that are not repetitions. */
export interface OtherActivity {
  kind: 'standing' | 'walking' | 'jumping' | 'dropped' | 'other';
  start_s: number;
  end_s: number;
}

export interface Provenance {
  /** Version of the project that made the result. */
  version: string;
  /** Names the detection method, its revision and the models it has learned, e.g. 'contacts-2, models 0a1b2c3d4e5f'. */
  method: string;
  settings: Record<string, unknown>;
  settings_sha256: string;
  /** SHA-256 of each raw file, in the order of `sensors`. */
  raw_sha256: string[];
  /** Filters as they acted, e.g. effective order and -3 dB frequency after both passes. */
  filters: EffectiveFilter[];
}

/** Everything one analysis says. A pure function of (input, settings, version). */
export interface Analysis {
  method: string;
  repetitions: RepetitionResult[];
  other_activity: OtherActivity[];
  quality: SensorQuality[];
  filters: EffectiveFilter[];
  /** What was dropped or doubted, with reasons. */
  faults: Fault[];
}
