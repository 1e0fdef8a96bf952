import type { Course } from '../../../shared/analysis.ts';
import type { SampleBlock, SensorRecording } from '../../../shared/sample-block.ts';
import type { Mounting, Phase } from '../../../shared/words.ts';

/** A contact as the reference tells it, on the common clock. */
export interface ReferenceContact {
  side: 'left' | 'right';
  touchdown_s: number;
  toe_off_s: number;
  step_length_m: number | null;
  stride_length_m: number | null;
  speed_mps: number | null;
  /** Known for simulated sprints. */
  phase?: Phase | null;
  /** Definitions as in shared/fields.ts. */
  foot_pitch_touchdown_deg?: number;
  foot_pitch_toe_off_deg?: number;
  foot_progression_deg?: number;
  shank_rotation_deg?: number;
  shank_angle_touchdown_deg?: number;
  /** Of the body from the start line at touchdown. */
  distance_m?: number;
}

/** What is true of a simulated run as a whole. */
export interface TrueRun {
  first_movement_s: number | null;
  top_speed_mps: number;
  time_constant_s: number | null;
}

export type Source =
  | 'treadmill'
  | 'overground'
  | 'simulated sprint'
  | 'painted sprint'
  | 'second generator'
  | 'simulated steady'
  | 'simulated other';

/** Two sensors of one mounting with what is known to be true about them. */
export interface ValidationCase {
  name: string;
  /** Person, of recordings of people. */
  runner?: string;
  source: Source;
  /** What the case shares with others of its kind: the line of the report it goes into. */
  set: string;
  mounting: Mounting;
  rate_hz: number;
  has_gyroscope: boolean;
  /** What was done to the recording, 'as recorded' for nothing. */
  variant: string;
  sensors: SensorRecording[];
  course: Course;
  reference: ReferenceContact[];
  /** Known for simulated runs. */
  run?: TrueRun;
  /**
   * The reference covers the whole recording (simulated), or only from its first to its last contact: what a detector
   * finds outside is then neither right nor wrong.
   */
  reference_covers_all: boolean;
}

/** Two blocks on one clock as the analysis wants them. */
export function pairOfSensors(
  mounting: Mounting,
  blocks: { left: SampleBlock; right: SampleBlock },
): SensorRecording[] {
  return (['left', 'right'] as const).map((side) => ({
    side,
    mounting,
    samples: blocks[side],
    clock_offset_s: 0,
    clock_drift: 0,
    clock_offset_u_s: 0,
  }));
}
