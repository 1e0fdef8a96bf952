import { CHANNELS, type Channel } from './channels.ts';
import type { Gap, SampleBlock, SensorRecording } from '../../shared/sample-block.ts';
import { encodeChannel } from './channel-codec.ts';
import { columnOf } from './channels.ts';

/** Samples a chunk: some 16 s at 1000 Hz, so that a zoomed window opens one or two chunks. */
export const CHUNK_SAMPLES = 16_384;

export interface EncodedChunk {
  channel: Channel;
  sequence: number;
  first_sample: number;
  samples: number;
  bytes: Uint8Array;
}

/** A sensor's recording without its samples. */
export interface RecordingDescription {
  side: SensorRecording['side'];
  mounting: SensorRecording['mounting'];
  start_utc: string | null;
  sampling_rate_hz: number;
  samples: number;
  duration_s: number;
  has_gyroscope: boolean;
  acc_range_mps2: number | null;
  gyr_range_radps: number | null;
  gaps: Gap[];
  clock_offset_s: number;
  clock_drift: number;
  clock_offset_u_s: number;
}

export function describeRecording(recording: SensorRecording): RecordingDescription {
  const { samples, ...place } = recording;
  return {
    ...place,
    start_utc: samples.start_utc,
    sampling_rate_hz: samples.sampling_rate_hz,
    samples: samples.time_s.length,
    duration_s: samples.time_s.at(-1) ?? 0,
    has_gyroscope: samples.gyr_radps !== null,
    acc_range_mps2: samples.acc_range_mps2,
    gyr_range_radps: samples.gyr_range_radps,
    gaps: samples.gaps,
  };
}

/** Cuts a block into chunks and encodes them; slow (tens of ms), so done in a worker. */
export function encodeSamples(samples: SampleBlock, factors: number[] = []): EncodedChunk[] {
  const chunks: EncodedChunk[] = [];
  for (const channel of CHANNELS) {
    if (channel.startsWith('gyr') && !samples.gyr_radps) continue;
    const column = columnOf(samples, channel);
    for (let first = 0, sequence = 0; first < column.length; first += CHUNK_SAMPLES, sequence++) {
      const part = column.subarray(first, first + CHUNK_SAMPLES);
      chunks.push({
        channel,
        sequence,
        first_sample: first,
        samples: part.length,
        bytes: encodeChannel(part, factors),
      });
    }
  }
  return chunks;
}
