import type { SensorClock } from './sensor-clock.ts';
import type { Mounting, Side } from './words.ts';

/** A stretch of time in which samples are missing. Nothing is ever interpolated across it. */
export interface Gap {
  /** Time of the last sample before the gap, seconds from the recording's first sample. */
  start_s: number;
  /** Time of the first sample after the gap. */
  end_s: number;
  /** How many samples were lost, where a counter or the rate tells; null when unknown. */
  lost_samples: number | null;
}

/** Three columns, one an axis, each of the block's length. */
export interface AxisColumns {
  x: Float64Array;
  y: Float64Array;
  z: Float64Array;
}

/**
 * What every source (file, radio, replay) turns into: columns in SI units on the sensor's own clock.
 * Invariants, checked by the contract test: all columns have the same length n >= 0; `time_s` is strictly increasing,
 * starts at 0 for the first block of a recording; no NaN in `time_s`; a missing value in a channel is NaN.
 */
export interface SampleBlock {
  /** UTC instant of the recording's first sample, ISO 8601; null where the source does not tell. */
  start_utc: string | null;
  /**
   * Standard uncertainty of `start_utc`, seconds: a start written to the second is good to 0.3 s. Absent or 0 where every sample
   * carries an absolute stamp.
   */
  start_utc_u_s?: number;
  /**
   * What the source's own clock said at the first sample, seconds; two files of one logger share that clock. Absent or null
   * where the source has no clock of its own.
   */
  clock_start_s?: number | null;
  /** Estimated true sampling rate (not the nominal one), Hz. */
  sampling_rate_hz: number;
  /** Seconds from the recording's first sample. */
  time_s: Float64Array;
  /** Acceleration as the sensor reads it (gravity included), m/s2, sensor axes. */
  acc_mps2: AxisColumns;
  /** Angular rate, rad/s, same axes, right-handed; null where the sensor has no gyroscope. */
  gyr_radps: AxisColumns | null;
  gaps: Gap[];
  /** True where the source broke off: the recording went on, but was not received or copied whole. */
  ends_early?: boolean;
  /** Full scale of the sensor where known or inferred from flat-topped samples; null when unknown. */
  acc_range_mps2: number | null;
  gyr_range_radps: number | null;
}

/** One sensor's recording of one or more repetitions, ready for analysis. */
export interface SensorRecording extends SensorClock {
  side: Side;
  mounting: Mounting;
  samples: SampleBlock;
  /**
   * Added to `samples.time_s` to put it on the common clock of the analysis. The common clock's zero is the first sample
   * of the earlier recording, so one of the two offsets is 0 and the other is >= 0.
   */
  clock_offset_s: number;
  /** Standard uncertainty of the alignment, seconds; 0 when both files share one clock. */
  clock_offset_u_s: number;
}
