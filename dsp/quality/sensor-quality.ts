import type { SensorQuality } from '../../shared/analysis.ts';
import type { SensorRecording } from '../../shared/sample-block.ts';
import type { SensorSignals } from '../events/sensor-signals.ts';

/** How good one sensor's recording is, and for what. */
export function sensorQuality(recording: SensorRecording, signals: SensorSignals): SensorQuality {
  const { samples } = recording;
  const n = samples.time_s.length;
  const intervals = new Float64Array(Math.max(0, n - 1));
  for (let i = 1; i < n; i++) intervals[i - 1] = samples.time_s[i] - samples.time_s[i - 1];
  const nominal = 1 / samples.sampling_rate_hz;
  let sum = 0;
  let count = 0;
  for (const d of intervals) {
    if (d > 1.5 * nominal) continue;
    sum += (d - nominal) ** 2;
    count++;
  }
  const total = (x: Uint8Array): number => x.reduce((a, b) => a + b, 0);
  return {
    side: recording.side,
    mounting: recording.mounting,
    sampling_rate_hz: samples.sampling_rate_hz,
    jitter_ms: count > 0 ? Math.sqrt(sum / count) * 1000 : 0,
    samples: n,
    duration_s: n > 0 ? samples.time_s[n - 1] : 0,
    lost_samples: signals.measured.length - total(signals.measured),
    gaps: samples.gaps,
    acc_clipped_samples: total(signals.acc_clipped),
    gyr_clipped_samples: total(signals.gyr_clipped),
    contacts_with_clipping: 0,
    resting_norm_mps2: null,
    gyr_bias_radps: null,
    acc_noise_mps2: null,
    gyr_noise_radps: null,
    bandwidth_hz: null,
    verdicts: [],
    faults: [],
  };
}
