import type { Estimate } from '../../numeric/fuse.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import type { AccelerometerFrame } from './accelerometer-frame.ts';
import type { Candidate } from './accelerometer-path.ts';
import type { AnchoredStride, StrideTimes } from './accelerometer-strides.ts';
import type { PushOffColumns } from './push-off-columns.ts';

/** What strides of one sensor without a gyroscope are measured with. */
export interface AccelerometerContext {
  /** Its acceleration, `across` pointing as it should. */
  frame: AccelerometerFrame;
  rate_hz: number;
  /** Stride time that the filters are made for. */
  usual_s: number;
  settings: AnalysisSettings;
}

/** How running shows in the acceleration alone at one place of the leg. Instants are sample indices. */
export interface AccelerometerSegment {
  /** The column that is most like itself a stride later. */
  repeating(frame: AccelerometerFrame): Float64Array;
  /**
   * Strides with one anchor each.
   * @param bursts strides anchored at the bursts of jerk
   */
  strides(bursts: AnchoredStride[], times: StrideTimes, context: AccelerometerContext): AnchoredStride[];
  /**
   * About where each stride's burst of jerk has its middle.
   * @param jerk jerk magnitude of the recording, low-passed to what landings carry
   */
  burstCentres(jerk: Float64Array, strides: AnchoredStride[], context: AccelerometerContext): number[];
  /**
   * What dates a soft landing beside its burst; none where the burst is all.
   * @param bursts touchdown as the burst dates it, NaN where there is none
   */
  jolts(bursts: number[], strides: AnchoredStride[], context: AccelerometerContext): Estimate[][];
  /** Places that may be the toe-off of a stride. @param down touchdown @param stride samples a stride */
  toeOffs(columns: PushOffColumns, down: number, stride: number, settings: AnalysisSettings): Candidate[];
  /** What dates the toe-off at a chosen place. */
  toeOffEstimates(
    columns: PushOffColumns,
    chosen: number,
    down: number,
    stride: number,
    settings: AnalysisSettings,
  ): Estimate[];
  /** Braking to a walk, the segment does not move as in running: the last contact before a pause says nothing of its toe-off. */
  toe_off_before_pause: boolean;
}
