import type { Gap, SensorRecording } from '../../shared/sample-block.ts';
import { decodeChannel } from './channel-codec.ts';
import { CHUNK_SAMPLES } from './chunks.ts';
import type { Channel } from './channels.ts';
import { notFound } from './not-found.ts';
import { LONG_SAMPLES, readWhole, type SampleSource } from './sample-source.ts';
import type { Store } from './store.ts';

/**
 * A stored recording whose samples are read as they are needed.
 * @throws FaultError RECORDING_NOT_FOUND
 */
export function openRecording(store: Store, recordingId: number): SampleSource {
  const row = store.first(store.query.selectFrom('recordings').selectAll().where('recording_id', '=', recordingId));
  if (!row) throw notFound('recording', recordingId);
  return {
    side: row.side as SensorRecording['side'],
    mounting: row.mounting as SensorRecording['mounting'],
    start_utc: row.start_utc,
    clock_start_s: null,
    sampling_rate_hz: row.sampling_rate_hz,
    samples: row.samples,
    duration_s: row.duration_s,
    has_gyroscope: row.has_gyroscope === 1,
    acc_range_mps2: row.acc_range_mps2,
    gyr_range_radps: row.gyr_range_radps,
    gaps: JSON.parse(row.gaps) as Gap[],
    clock_offset_s: row.clock_offset_s,
    clock_drift: row.clock_drift,
    clock_offset_u_s: row.clock_offset_u_s,
    columns: {
      sparse_times: row.samples > LONG_SAMPLES ? sparseTimes(store, recordingId) : null,
      read: (channel, first, end) => readChannel(store, recordingId, channel, first, end),
    },
  };
}

function sparseTimes(store: Store, recordingId: number): { every: number; times: Float64Array } {
  const chunk = store.prepare(
    "SELECT bytes FROM recording_chunks WHERE recording_id = ? AND channel = 'time_s' AND sequence = ?",
  );
  const times: number[] = [];
  for (;;) {
    const row = chunk.get(recordingId, times.length) as { bytes: Uint8Array } | undefined;
    if (!row) return { every: CHUNK_SAMPLES, times: Float64Array.from(times) };
    times.push(decodeChannel(row.bytes)[0]);
  }
}

/** A recording as it goes into an analysis, whole. @throws FaultError RECORDING_NOT_FOUND */
export function readRecording(store: Store, recordingId: number): SensorRecording {
  return readWhole(openRecording(store, recordingId));
}

/** Samples `first` to `end` (exclusive) of one channel; only the chunks that hold them are opened. */
export function readChannel(
  store: Store,
  recordingId: number,
  channel: Channel,
  first: number,
  end: number,
): Float64Array {
  const rows = store
    .prepare(
      `SELECT first_sample, bytes FROM recording_chunks
       WHERE recording_id = ? AND channel = ? AND sequence BETWEEN ? AND ? ORDER BY sequence`,
    )
    .all(
      recordingId,
      channel,
      Math.floor(first / CHUNK_SAMPLES),
      Math.floor(Math.max(first, end - 1) / CHUNK_SAMPLES),
    ) as { first_sample: number; bytes: Uint8Array }[];
  const values = new Float64Array(Math.max(0, end - first));
  for (const row of rows) {
    const part = decodeChannel(row.bytes);
    const from = Math.max(first, row.first_sample);
    const to = Math.min(end, row.first_sample + part.length);
    values.set(part.subarray(from - row.first_sample, to - row.first_sample), from - first);
  }
  return values;
}
