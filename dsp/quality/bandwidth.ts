import type { RepetitionResult } from '../../shared/analysis.ts';
import type { SensorRecording } from '../../shared/sample-block.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';
import { powerBandwidth, powerDensity } from '../filters/spectrum.ts';
import { sampleAt } from '../signals/sensor-time.ts';

/** Longest stretch that is looked at, samples: enough strides at 1000 Hz, and quick. */
const LONGEST = 8192;

/**
 * Frequency below which `share` of the power of acceleration about its mean lies while running, Hz: it tells sharp sensors
 * and straps from soft ones. Norm of acceleration over the first stretch of running.
 * @param share of the power, 0 to 1
 * @returns null without a gap-free stretch of running
 */
export function bandwidth(
  recording: SensorRecording,
  signals: SensorSignals,
  repetitions: RepetitionResult[],
  share: number,
): number | null {
  const run = repetitions[0];
  if (!run) return null;
  const { rate_hz, acc_norm } = signals;
  const from = Math.max(0, Math.round(sampleAt(run.start_s, { recording, signals })));
  const x = acc_norm.slice(from, Math.min(Math.round(sampleAt(run.end_s, { recording, signals })), from + LONGEST));
  const n = x.length;
  if (n < 64 || x.some((value) => !Number.isFinite(value))) return null;
  return powerBandwidth(powerDensity(x, rate_hz), share);
}
