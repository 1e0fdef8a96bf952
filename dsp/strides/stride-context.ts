import type { Conditions, Course } from '../../shared/analysis.ts';
import type { SensorRecording } from '../../shared/sample-block.ts';
import type { TravelKind } from '../../shared/words.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';
import type { StrideSettings } from '../settings/strides.ts';

/** What is known of a repetition beside its contacts. Times on the common clock. */
export interface StrideContext {
  /**
   * Each sensor with its channels on a uniform grid, in the order of the input, and whether its axes of rotation and of acceleration
   * do not belong together: then it gives neither angles nor lengths.
   */
  sensors: { recording: SensorRecording; signals: SensorSignals; axes_doubtful?: boolean }[];
  travel: TravelKind;
  /** First movement of the start; null when it was not seen. */
  first_movement_s: number | null;
  first_movement_s_u: number | null;
  /** For how long the feet go on as in running after the last contact that was found, s; 0 where it is not said. */
  runs_on_s?: number;
  course: Course;
  conditions: Conditions;
  settings: StrideSettings;
}
