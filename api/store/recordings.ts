import type { Recording } from '../../shared/schemas/recording.ts';
import type { RecordingLine } from '../../shared/schemas/repetition.ts';
import { freshId } from './fresh-id.ts';
import type { EncodedChunk, RecordingDescription } from './chunks.ts';
import { notFound } from './not-found.ts';
import { nowUtc, type Store } from './store.ts';

/** Whose a recording is and where it came from. */
export interface RecordingOrigin {
  athlete_id: number;
  import_id: number | null;
  raw_file_id: number | null;
  source: 'file' | 'radio';
  file_name: string;
  layout: unknown;
  evidence: unknown;
}

/** Stores a recording with its encoded samples. Call it inside a transaction. @returns its identifier */
export function insertRecording(
  store: Store,
  origin: RecordingOrigin,
  description: RecordingDescription,
  chunks: EncodedChunk[],
): number {
  const { id } = store.run(
    store.query.insertInto('recordings').values({
      recording_id: freshId(store, 'recordings'),
      ...origin,
      ...description,
      layout: JSON.stringify(origin.layout ?? null),
      evidence: JSON.stringify(origin.evidence ?? null),
      has_gyroscope: description.has_gyroscope ? 1 : 0,
      gaps: JSON.stringify(description.gaps),
      created_utc: nowUtc(),
    }),
  );
  insertChunks(store, id, chunks);
  return id;
}

/** Stores chunks of a recording. */
export function insertChunks(store: Store, recordingId: number, chunks: EncodedChunk[]): void {
  const insert = store.prepare(
    'INSERT INTO recording_chunks (recording_id, channel, sequence, first_sample, samples, bytes) VALUES (?, ?, ?, ?, ?, ?)',
  );
  for (const chunk of chunks) {
    insert.run(recordingId, chunk.channel, chunk.sequence, chunk.first_sample, chunk.samples, chunk.bytes);
  }
}

/** The recordings a repetition rests on, left before right, without their samples. */
export function listRecordings(store: Store, repetitionId: number): RecordingLine[] {
  const rows = store.all(
    recordingLines(store)
      .innerJoin('repetition_recordings', 'repetition_recordings.recording_id', 'recordings.recording_id')
      .where('repetition_recordings.repetition_id', '=', repetitionId)
      .orderBy('side')
      .orderBy('recordings.recording_id'),
  );
  return rows.map(toRecordingLine);
}

/**
 * One recording with how its file was understood, and the raw file it came from.
 * @throws FaultError RECORDING_NOT_FOUND
 */
export function getRecording(store: Store, recordingId: number): { recording: Recording; raw_file_id: number | null } {
  const row = store.first(
    recordingLines(store)
      .select(['recordings.athlete_id', 'import_id', 'source', 'gaps', 'layout', 'evidence', 'recordings.raw_file_id'])
      .where('recordings.recording_id', '=', recordingId),
  );
  if (!row) throw notFound('recording', recordingId);
  const { raw_file_id, gaps, layout, evidence, athlete_id, import_id, source, ...line } = row;
  const repetitions = store.all(
    store.query
      .selectFrom('repetition_recordings')
      .innerJoin('repetitions', 'repetitions.repetition_id', 'repetition_recordings.repetition_id')
      .select('repetitions.repetition_id')
      .where('recording_id', '=', recordingId)
      .where('deleted_utc', 'is', null),
  );
  return {
    raw_file_id,
    recording: {
      ...toRecordingLine(line),
      athlete_id,
      import_id,
      source,
      gaps: JSON.parse(gaps),
      layout: JSON.parse(layout ?? 'null'),
      evidence: JSON.parse(evidence ?? 'null'),
      repetition_ids: repetitions.map(({ repetition_id }) => repetition_id),
    },
  };
}

function recordingLines(store: Store) {
  return store.query
    .selectFrom('recordings')
    .leftJoin('raw_files', 'raw_files.raw_file_id', 'recordings.raw_file_id')
    .select([
      'recordings.recording_id',
      'recordings.uuid',
      'side',
      'mounting',
      'recordings.file_name',
      'raw_files.raw_sha256',
      'raw_files.bytes as raw_bytes',
      'sampling_rate_hz',
      'samples',
      'duration_s',
      'has_gyroscope',
      'clock_offset_s',
      'clock_drift',
      'clock_offset_u_s',
      'start_utc',
    ]);
}

type RecordingRow = NonNullable<Awaited<ReturnType<ReturnType<typeof recordingLines>['executeTakeFirst']>>>;

function toRecordingLine(row: RecordingRow): RecordingLine {
  return {
    ...row,
    side: row.side as RecordingLine['side'],
    mounting: row.mounting as RecordingLine['mounting'],
    raw_sha256: row.raw_sha256 ?? '',
    raw_bytes: row.raw_bytes ?? 0,
    has_gyroscope: row.has_gyroscope === 1,
  };
}

/** Takes away recordings that an import began to store and no repetition rests on: the program was killed in between. */
export function removeIncompleteRecordings(store: Store): number {
  return store
    .prepare(
      `DELETE FROM recordings WHERE recording_id NOT IN (SELECT recording_id FROM repetition_recordings)
         AND import_id IN (SELECT import_id FROM imports WHERE state IN ('queued', 'working'))`,
    )
    .run().changes;
}
