import type { SensorRecording } from '../../shared/sample-block.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';

/** The sample of a sensor's columns nearest to an instant on the common clock; may lie outside the columns. */
export function sampleIndex(common_s: number, recording: SensorRecording, signals: SensorSignals): number {
  const own_s = (common_s - recording.clock_offset_s) / (1 + recording.clock_drift);
  return Math.round((own_s - signals.start_s) * signals.rate_hz);
}
