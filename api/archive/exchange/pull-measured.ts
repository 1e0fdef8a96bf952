import { createHash } from 'node:crypto';
import { FaultError, fault } from '../../../shared/fault.ts';
import { columnNames } from '../../store/column-names.ts';
import { freshId } from '../../store/fresh-id.ts';
import { unpacked } from '../../store/raw-files.ts';
import { Identities } from '../rows/identities.ts';
import { archivedRows, type ArchivedRow as Row } from './archived-rows.ts';
import type { Exchange } from './exchange.ts';
import { archivedChunks, placeOfRaw } from './raw-chunks.ts';

/** Everything a repetition rests on, and its results, as the archive has them. */
export interface Measured {
  recordings: (Row & { chunks: Row[] })[];
  analyses: (Row & { contacts: Row[] })[];
}

/** Fetches what this machine lacks of a repetition; raw files are stored on the way, since they may be large. */
export async function fetchMeasured(x: Exchange, recording_ids: string[], analysis_ids: string[]): Promise<Measured> {
  const ids = new Identities(x.store);
  const missing = (table: string, wanted: string[]) => wanted.filter((uuid) => ids.numberOf(table, uuid) === null);
  const found: Measured = { recordings: [], analyses: [] };
  for (const recording of await archivedRows(x, 'recordings', 'recording_id', missing('recordings', recording_ids))) {
    if (recording.raw_sha256 !== null) await pullRawFile(x, recording.raw_sha256 as string);
    const chunks = await archivedRows(x, 'recording_chunks', 'recording_id', [recording.recording_id as string]);
    found.recordings.push({ ...recording, chunks });
  }
  for (const analysis of await archivedRows(x, 'analyses', 'analysis_id', missing('analyses', analysis_ids))) {
    // The day names the partition, so that no other is looked into.
    const { rows } = await x.client.query<Row>(
      'SELECT * FROM archive.contacts WHERE club_id = $1 AND day = $2 AND analysis_id = $3',
      [x.club_id, analysis.day, analysis.analysis_id],
    );
    found.analyses.push({ ...analysis, contacts: rows });
  }
  return found;
}

/** Stores what was fetched of a repetition and ties it to it. To be called inside a transaction of the store. */
export function storeMeasured(
  x: Exchange,
  repetition_id: number,
  measured: Measured,
  { recordings, analysis_id }: { recordings?: string[]; analysis_id?: string | null },
): void {
  const ids = new Identities(x.store);
  for (const recording of measured.recordings) storeRecording(x, recording, ids);
  for (const analysis of measured.analyses) storeAnalysis(x, repetition_id, analysis);
  if (recordings !== undefined) {
    x.store.prepare('DELETE FROM repetition_recordings WHERE repetition_id = ?').run(repetition_id);
    for (const uuid of recordings) {
      const recording_id = ids.numberOf('recordings', uuid);
      if (recording_id !== null) insert(x, 'repetition_recordings', { repetition_id, recording_id });
    }
  }
  if (analysis_id === undefined) return;
  x.store
    .prepare('UPDATE repetitions SET analysis_id = ? WHERE repetition_id = ?')
    .run(ids.numberOf('analyses', analysis_id), repetition_id);
}

function storeRecording(x: Exchange, { chunks, ...recording }: Row & { chunks: Row[] }, ids: Identities): void {
  const { club_id: _, person_id, import_id, raw_sha256, hidden, recording_id: uuid, ...own } = recording;
  if (ids.numberOf('recordings', uuid) !== null) return;
  const names = x.hidden.open(hidden as Buffer | null, `${x.club_id}/recordings/${uuid}`);
  const raw = x.store.prepare('SELECT raw_file_id FROM raw_files WHERE raw_sha256 = ?').get(raw_sha256) as
    | Row
    | undefined;
  const recording_id = freshId(x.store, 'recordings');
  insert(x, 'recordings', {
    ...own,
    recording_id,
    uuid,
    athlete_id: ids.numberOf('athletes', person_id),
    import_id: ids.numberOf('imports', import_id),
    raw_file_id: raw?.raw_file_id ?? null,
    file_name: names.file_name ?? `${own.side}`,
    layout: names.layout ?? null,
    evidence: names.evidence ?? null,
  });
  for (const { club_id: __, ...chunk } of chunks) insert(x, 'recording_chunks', { ...chunk, recording_id });
}

function storeAnalysis(x: Exchange, repetition_id: number, { contacts, ...analysis }: Row & { contacts: Row[] }): void {
  const { analysis_id: uuid, figures, values } = analysis as { figures: Row; values: Row[] } & Row;
  const analysis_id = freshId(x.store, 'analyses');
  const own = known(columnNames(x.store, 'analyses'), { ...analysis, ...figures });
  insert(x, 'analyses', { ...own, analysis_id, uuid, repetition_id });
  const columns = columnNames(x.store, 'contacts');
  for (const contact of contacts) insert(x, 'contacts', { ...known(columns, contact), analysis_id });
  for (const value of values) insert(x, 'repetition_values', { ...value, analysis_id });
}

/** Raw bytes as they are stored; they count once all are there and their hash is the one that was sent. */
export async function pullRawFile(x: Exchange, raw_sha256: string): Promise<void> {
  const has = x.store.prepare('SELECT 1 FROM raw_files WHERE raw_sha256 = ?');
  if (has.get(raw_sha256) !== undefined) return;
  const [file] = await archivedRows(x, 'raw_files', 'raw_sha256', [raw_sha256]);
  if (!file || (file.sealed && !x.hidden.readable)) return;
  const names = x.hidden.open(file.file_name as Buffer | null, placeOfRaw(x, raw_sha256));
  const { file_name = raw_sha256.slice(0, 12) } = names;
  const raw_file_id = x.store.transaction(() => {
    const id = freshId(x.store, 'raw_files');
    insert(x, 'raw_files', { raw_file_id: id, file_name, created_utc: file.created_utc });
    return id;
  });
  const hash = createHash('sha256');
  for await (const { sequence, encoding, bytes } of archivedChunks(x, raw_sha256)) {
    hash.update(unpacked({ encoding, bytes: bytes! }));
    insert(x, 'raw_chunks', { raw_file_id, sequence, encoding, bytes });
  }
  if (hash.digest('hex') !== raw_sha256) {
    x.store.prepare('DELETE FROM raw_files WHERE raw_file_id = ?').run(raw_file_id);
    throw new FaultError(fault('ARCHIVE_DAMAGED', { what: String(file_name) }, { raw_sha256 }));
  }
  x.store
    .prepare('UPDATE raw_files SET raw_sha256 = ?, bytes = ? WHERE raw_file_id = ?')
    .run(raw_sha256, file.bytes, raw_file_id);
}

/** What this machine's table has a column for; the archive may know quantities that this version does not. */
function known(columns: string[], row: Row): Row {
  return Object.fromEntries(columns.filter((name) => name in row).map((name) => [name, row[name]]));
}

function insert(x: Exchange, table: string, values: Row): void {
  const columns = Object.keys(values);
  x.store
    .prepare(`INSERT INTO ${table} (${columns.join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`)
    .run(...Object.values(values));
}
