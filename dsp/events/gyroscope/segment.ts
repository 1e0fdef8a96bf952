import type { Fused, Estimate } from '../../numeric/fuse.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import type { ImpactOnset } from '../impact-onset.ts';
import type { StrideFrame } from '../stride-frame.ts';
import type { Candidates } from './delay-of-neighbours.ts';
import type { LandingStride } from './segment-features.ts';
import type { SharpOnset } from './sharp-landing.ts';
import type { PushOffMotion } from './toe-speed.ts';

/** What the acceleration shows of one landing; fractional indices of the frame. */
export interface Landing {
  /** Where a sharp impact begins. */
  sudden: SharpOnset | null;
  /** 0 to 1: how far that is to be believed; 1: alone. */
  sharp: number;
  /** Steepest rise of the slow vertical acceleration, of a soft landing. */
  rise: number | null;
  /** First motion of the impact near that rise. */
  onset: ImpactOnset | null;
  /** The rise is not this stride's own but where the strides around have it, since its own lies elsewhere. */
  from_neighbours: boolean;
}

/** An instant of one contact, as a fractional index of the frame. */
export interface Instant {
  /** The main feature before any offset. */
  raw: number;
  /** All features with their offsets. */
  fused: Fused;
}

/** One stride of a sensor on one segment, and how its landing and its push-off show there. */
export interface SegmentStride extends LandingStride {
  /**
   * Where the slow vertical acceleration may rise of a soft landing.
   * @param soft_jerk jerk magnitude of the recording, low-passed to what a smeared impact carries
   */
  rises(soft_jerk: Float64Array): Candidates | null;
  /** Main feature of a soft landing before any offset. */
  softRaw(landing: Landing): number;
  /**
   * What tells a soft landing, with offsets from force plates (settings.touchdown).
   * @param wider factor on the uncertainty, of strides shorter than those that the offsets were measured on
   */
  softTouchdown(landing: Landing, wider: number): Estimate[];
  /** Motion of the push-off, for the lever arm to the toes; null where the segment does not turn about them. */
  pushOff: PushOffMotion | null;
  /** Where the toes leave the ground by their own speed. @param lever arm from the sensor to the toes, m; null where that is unknown */
  toesLeave(lever: [number, number] | null): number | null;
  /** Toe-off. @param touchdown_at @param toes_leave indices of the frame */
  toeOff(touchdown_at: number, toes_leave: number | null): Instant | null;
}

/** How contacts show on one segment of the leg. */
export interface Segment {
  /** @param slow_rate forward rate, low-passed further. @returns null when the stride does not turn as this segment does in running */
  stride(frame: StrideFrame, slow_rate: Float64Array, settings: AnalysisSettings): SegmentStride | null;
  /** A rise far from where the strides around have theirs is another event of the stride: theirs stands instead. */
  rise_follows_neighbours: boolean;
}
