import { capital } from '../../../shared/capital.ts';
import { MOUNTING_PLACES } from '../../../shared/mountings.ts';
import type { SampleBlock, SensorRecording } from '../../../shared/sample-block.ts';
import { VERSION } from '../../version.ts';
import { tsv } from './names.ts';

const ROWS_A_PART = 2000;

/** Channels in the order of the columns: time first, as LATENCY; then acceleration and rotation. */
function columnsOf(
  samples: SampleBlock,
): { name: string; component: string; type: string; units: string; values: Float64Array }[] {
  const axes = ['x', 'y', 'z'] as const;
  const { time_s, acc_mps2, gyr_radps } = samples;
  return [
    { name: 'latency', component: 'n/a', type: 'LATENCY', units: 's', values: time_s },
    ...axes.map((a) => ({ name: `acc_${a}`, component: a, type: 'ACCEL', units: 'm/s^2', values: acc_mps2[a] })),
    ...(gyr_radps
      ? axes.map((a) => ({ name: `gyro_${a}`, component: a, type: 'GYRO', units: 'rad/s', values: gyr_radps[a] }))
      : []),
  ];
}

/**
 * Samples as lines without a header. Numbers have as many digits as a double needs to come back the same (ECMAScript's
 * shortest form), so that nothing is lost between export and import.
 */
export function* motionLines(samples: SampleBlock): Generator<string> {
  const columns = columnsOf(samples).map(({ values }) => values);
  const n = samples.time_s.length;
  for (let first = 0; first < n; first += ROWS_A_PART) {
    let part = '';
    for (let i = first; i < Math.min(n, first + ROWS_A_PART); i++) {
      part += `${columns.map((column) => (Number.isNaN(column[i]) ? 'n/a' : String(column[i]))).join('\t')}\n`;
    }
    yield part;
  }
}

export function channelsTsv({ samples, side, mounting }: SensorRecording): string {
  const point = `${side === 'unknown' ? '' : capital(side)}${MOUNTING_PLACES[mounting].segment}`;
  return tsv(
    ['name', 'component', 'type', 'tracked_point', 'units', 'placement', 'reference_frame', 'sampling_frequency'],
    columnsOf(samples).map(({ name, component, type, units }) => [
      name,
      component,
      type,
      type === 'LATENCY' ? 'n/a' : point,
      units,
      MOUNTING_PLACES[mounting].place,
      type === 'LATENCY' ? 'n/a' : 'sensor',
      samples.sampling_rate_hz,
    ]),
  );
}

/** Sidecar of a motion file. Keys of BIDS first; those of our own carry what an import needs to be exact. */
export function motionSidecar(recording: SensorRecording, task: string): object {
  const { samples } = recording;
  const types = columnsOf(samples).map(({ type }) => type);
  const count = (type: string): number => types.filter((t) => t === type).length;
  const gyro = count('GYRO');
  return {
    TaskName: task,
    TaskDescription: 'Sprint repetitions with full recovery.',
    SamplingFrequency: Math.round(samples.sampling_rate_hz),
    SamplingFrequencyEffective: samples.sampling_rate_hz,
    ACCELChannelCount: count('ACCEL'),
    ...(gyro > 0 ? { GYROChannelCount: gyro } : {}),
    LATENCYChannelCount: 1,
    MotionChannelCount: types.length,
    TrackedPointsCount: 1,
    RecordingDuration: samples.time_s.at(-1) ?? 0,
    MissingValues: 'n/a',
    SoftwareVersions: `Cinderlane ${VERSION}`,
  };
}

/**
 * What an import needs to be exact and BIDS has no key for; kept under derivatives, as the sidecar allows no keys of others.
 */
export function recordingSidecar(recording: SensorRecording): object {
  const { samples } = recording;
  return {
    Side: recording.side,
    Mounting: recording.mounting,
    ClockOffset: recording.clock_offset_s,
    ClockDrift: recording.clock_drift,
    ClockOffsetUncertainty: recording.clock_offset_u_s,
    Gaps: samples.gaps,
    AccelerometerRange: samples.acc_range_mps2,
    GyroscopeRange: samples.gyr_range_radps,
  };
}
