import type { RepetitionResult } from '../../shared/analysis.ts';
import type { SensorRecording } from '../../shared/sample-block.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';
import { powerDensity } from '../filters/spectrum.ts';
import type { AnalysisSettings } from '../settings/settings.ts';
import { sampleAt } from '../signals/sensor-time.ts';

/** The strongest resonance in the acceleration of running. */
export interface Resonance {
  frequency_hz: number;
  /** How far it stands out of what lies below and above it, decibels. */
  rise_db: number;
  fall_db: number;
  /** Its width 3 dB below the peak, as a share of its frequency. */
  width: number;
  /** Where the acceleration breaks off most steeply within the leg's own motion, and by how much a factor of 1.7 higher, decibels. */
  break_hz: number;
  break_db: number;
  /** Running that was looked at, s. */
  duration_s: number;
}

/**
 * A sensor that sits loose rings on its strap after every landing and push-off: its spectrum has one narrow peak, and little above it.
 * Where the strap is so soft that the peak drowns in the leg's own motion, the sensor no longer follows the leg, and the spectrum breaks off.
 * Power density of the three axes over the longest gap-free stretch of running.
 * @returns null where there is too little running or the rate is too low; a rise of 0 where there is no peak
 */
export function resonance(
  recording: SensorRecording,
  signals: SensorSignals,
  repetitions: RepetitionResult[],
  settings: AnalysisSettings,
): Resonance | null {
  const { segment_s, longest_s, least_s, smooth_hz, to_hz, high_factor } = settings.mounting.ringing;
  const { rate_hz, acc_mps2 } = signals;
  if (to_hz * high_factor > 0.45 * rate_hz) return null;
  const [from, to] = longestStretch(recording, signals, repetitions);
  const duration_s = Math.min(longest_s, (to - from) / rate_hz);
  if (duration_s < least_s) return null;
  const end = from + Math.floor(duration_s * rate_hz);
  const segment = Math.round(segment_s * rate_hz);
  const parts = [acc_mps2.x, acc_mps2.y, acc_mps2.z].map((c) =>
    powerDensity(c.subarray(from, end), rate_hz, { segment }),
  );
  const { step_hz } = parts[0];
  const half = Math.round(smooth_hz / 2 / step_hz);
  const power = parts[0].values.map((_, k) => parts.reduce((sum, { values }) => sum + values[k], 0));
  const level = power.map((_, k) => {
    const near = power.subarray(Math.max(1, k - half), k + half + 1);
    return 10 * Math.log10(near.reduce((sum, p) => sum + p, 0) / near.length);
  });
  return { ...highestPeak(level, step_hz, settings), ...steepestBreak(level, step_hz, settings), duration_s };
}

function highestPeak(level: Float64Array, step_hz: number, settings: AnalysisSettings) {
  const { from_hz, to_hz, low_factor, high_factor } = settings.mounting.ringing;
  let best = { frequency_hz: 0, rise_db: 0, fall_db: 0, width: 1 };
  for (let k = Math.ceil(from_hz / step_hz); k * step_hz <= to_hz; k++) {
    if (level[k] < level[k - 1] || level[k] < level[k + 1]) continue;
    const rise_db = level[k] - Math.min(...level.subarray(Math.floor(k / low_factor), k));
    const fall_db = level[k] - Math.min(...level.subarray(k, Math.ceil(k * high_factor)));
    if (rise_db <= best.rise_db) continue;
    let [a, b] = [k, k];
    while (a > 1 && level[a] > level[k] - 3) a--;
    while (b + 1 < level.length && level[b] > level[k] - 3) b++;
    best = { frequency_hz: k * step_hz, rise_db, fall_db, width: (b - a) / k };
  }
  return best;
}

function steepestBreak(level: Float64Array, step_hz: number, settings: AnalysisSettings) {
  const { break_from_hz, break_to_hz, high_factor } = settings.mounting.ringing;
  let best = { break_hz: 0, break_db: 0 };
  for (let k = Math.ceil(break_from_hz / step_hz); k * step_hz <= break_to_hz; k++) {
    const break_db = level[k] - level[Math.round(k * high_factor)];
    if (break_db > best.break_db) best = { break_hz: k * step_hz, break_db };
  }
  return best;
}

/** First and end sample of the longest stretch of running without a missing value. */
function longestStretch(
  recording: SensorRecording,
  signals: SensorSignals,
  repetitions: RepetitionResult[],
): [number, number] {
  let best: [number, number] = [0, 0];
  for (const { contacts, end_s } of repetitions) {
    let from = Math.max(0, Math.round(sampleAt(contacts[0].touchdown_s, { recording, signals })));
    const to = Math.min(signals.length, Math.round(sampleAt(end_s, { recording, signals })));
    for (let i = from; i <= to; i++) {
      if (i < to && Number.isFinite(signals.acc_norm[i])) continue;
      if (i - from > best[1] - best[0]) best = [from, i];
      from = i + 1;
    }
  }
  return best;
}
