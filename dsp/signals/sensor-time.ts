import { commonTime, ownTime, type SensorClock } from '../../shared/sensor-clock.ts';
import type { SensorSignals } from './sensor-signals.ts';

/** A sensor's clock and the even grid that its channels lie on. */
export interface SensorGrid {
  recording: SensorClock;
  signals: Pick<SensorSignals, 'start_s' | 'rate_hz'>;
}

/**
 * Place of an instant of the common clock among the sensor's samples, with fraction; may lie outside them.
 * @param common_s instant on the common clock, s
 * @returns fractional sample index
 */
export function sampleAt(common_s: number, { recording, signals }: SensorGrid): number {
  return (ownTime(common_s, recording) - signals.start_s) * signals.rate_hz;
}

/**
 * Instant of a sample on the common clock, s; the sample may have a fraction.
 * @param sample index, may have a fraction
 * @returns s
 */
export function instantOf(sample: number, { recording, signals }: SensorGrid): number {
  return commonTime(signals.start_s + sample / signals.rate_hz, recording);
}
