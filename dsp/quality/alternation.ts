import { instantOf } from '../signals/sensor-time.ts';
import type { SensorRecording } from '../../shared/sample-block.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';
import { swingCycles } from '../events/swing-cycles.ts';
import { median } from '../numeric/statistics.ts';
import type { AnalysisSettings } from '../settings/settings.ts';

/** One sensor with its signals. */
export interface Sensor {
  recording: SensorRecording;
  signals: SensorSignals;
}

/**
 * Whether two legs swing by turns, as in walking and running: each swing of one lies about half way between two of the other. In
 * jumps they swing together, in hops only one does.
 * @returns false with one sensor, or too few swings to tell
 */
export function legsAlternate(sensors: Sensor[], settings: AnalysisSettings): boolean {
  const { least_strides, alternate_from, alternate_to } = settings.mounting.segment;
  if (sensors.length !== 2) return false;
  const [one, other] = sensors.map((sensor) => swings(sensor, settings));
  const phases = one.flatMap(([from_s, to_s]) => {
    const between = other.map(([at_s]) => at_s).filter((at_s) => at_s >= from_s && at_s < to_s);
    return between.length === 1 ? [(between[0] - from_s) / (to_s - from_s)] : [];
  });
  if (phases.length < Math.max(least_strides, one.length / 2)) return false;
  const phase = median(phases);
  return phase > alternate_from && phase < alternate_to;
}

/** First and last instant of each running-length cycle, on the common clock. */
function swings(sensor: Sensor, settings: AnalysisSettings): [number, number][] {
  const { signals } = sensor;
  return swingCycles(signals, settings)
    .filter(({ whole, from, to }) => whole && to - from < settings.running.max_stride_s * signals.rate_hz)
    .map(({ from, to }) => [instantOf(from, sensor), instantOf(to, sensor)]);
}
