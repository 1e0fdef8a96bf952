import type { MountingCheck, RepetitionResult, SensorQuality } from '../../shared/analysis.ts';
import { type Fault, fault } from '../../shared/fault.ts';
import type { SensorRecording } from '../../shared/sample-block.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';
import type { SidedContact } from '../repetitions/contact-row.ts';
import type { AnalysisSettings } from '../settings/settings.ts';
import { bandwidth } from './bandwidth.ts';
import { mountingFaults } from './mounting-faults.ts';
import { restingReadings } from './resting.ts';
import { sampleAt } from '../signals/sensor-time.ts';
import { verdicts } from './verdicts.ts';

/**
 * How good one sensor's recording is, and for what.
 * @param repetitions all repetitions found, for the stretches of running
 * @param contacts this sensor's contacts within them
 * @param checks how it was worn; @param axes faults of its axes
 */
export function sensorQuality(
  recording: SensorRecording,
  signals: SensorSignals,
  repetitions: RepetitionResult[],
  contacts: SidedContact[],
  checks: MountingCheck[],
  axes: Fault[],
  settings: AnalysisSettings,
): SensorQuality {
  const { samples, side, mounting } = recording;
  const n = samples.time_s.length;
  const q = settings.quality;
  const lost_samples = signals.measured.length - count(signals.measured);
  const rest = restingReadings(signals, q.rest_window_s, q.rest_limit_mps2);
  const clipped = contacts.filter((contact) => contact.clipped).length;
  const jitter_ms = jitter(samples.time_s, samples.sampling_rate_hz) * 1000;
  return {
    side,
    mounting,
    sampling_rate_hz: samples.sampling_rate_hz,
    jitter_ms,
    samples: n,
    duration_s: n > 0 ? samples.time_s[n - 1] - samples.time_s[0] : 0,
    lost_samples,
    gaps: samples.gaps,
    acc_clipped_samples: count(signals.acc_clipped),
    gyr_clipped_samples: count(signals.gyr_clipped),
    contacts_with_clipping: clipped,
    resting_norm_mps2: rest?.norm_mps2 ?? null,
    gyr_bias_radps: rest?.gyr_bias_radps ?? null,
    acc_noise_mps2: rest?.acc_noise_mps2 ?? null,
    gyr_noise_radps: rest?.gyr_noise_radps ?? null,
    bandwidth_hz: bandwidth(recording, signals, repetitions, q.bandwidth_share),
    mounting_checks: checks,
    verdicts: verdicts(
      {
        mounting,
        sampling_rate_hz: samples.sampling_rate_hz,
        has_gyroscope: samples.gyr_radps !== null,
        lost_share: signals.length > 0 ? lost_samples / signals.length : 0,
        contacts: contacts.length,
        contacts_with_clipping: clipped,
        swings_clipped_share: clippedSwings(recording, signals, contacts),
        jitter_ms,
        axes_doubtful: axes.length > 0,
        doubts: checks.filter(({ finding }) => finding === 'doubtful').map(({ check }) => check),
      },
      settings,
    ),
    faults: [
      ...restingFaults(recording, rest?.norm_mps2 ?? null, q.rest_error),
      ...axes,
      ...mountingFaults(recording, checks),
    ],
  };
}

function count(mask: Uint8Array): number {
  let sum = 0;
  for (let i = 0; i < mask.length; i++) sum += mask[i];
  return sum;
}

/** Standard deviation of the sample intervals, gaps left out, s. */
function jitter(time_s: Float64Array, rate_hz: number): number {
  const nominal = 1 / rate_hz;
  let [sum, n] = [0, 0];
  for (let i = 1; i < time_s.length; i++) {
    const error = time_s[i] - time_s[i - 1] - nominal;
    if (Math.abs(error) > nominal) continue;
    sum += error * error;
    n++;
  }
  return n > 0 ? Math.sqrt(sum / n) : 0;
}

/** Share of strides in whose swing the gyroscope sat at its full scale. */
function clippedSwings(recording: SensorRecording, signals: SensorSignals, contacts: SidedContact[]): number {
  const index = (common_s: number): number => Math.round(sampleAt(common_s, { recording, signals }));
  let [clipped, swings] = [0, 0];
  for (let k = 0; k + 1 < contacts.length; k++) {
    const [from, to] = [contacts[k].toe_off_s ?? contacts[k].touchdown_s, contacts[k + 1].touchdown_s];
    if (to - from > 1) continue;
    swings++;
    if (signals.gyr_clipped.subarray(index(from), index(to)).includes(1)) clipped++;
  }
  return swings > 0 ? clipped / swings : 0;
}

function restingFaults(recording: SensorRecording, norm: number | null, limit: number): Fault[] {
  if (norm === null || Math.abs(norm / STANDARD_GRAVITY_MPS2 - 1) <= limit) return [];
  const { side, mounting } = recording;
  return [
    fault(
      'SENSOR_SCALE_DOUBTFUL',
      { side, mounting, resting_mps2: norm, gravity_mps2: STANDARD_GRAVITY_MPS2, share: limit },
      { side, mounting, resting_norm_mps2: norm },
    ),
  ];
}
