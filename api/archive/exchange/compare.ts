import { createHash } from 'node:crypto';
import { FIGURE_COLUMNS } from '../../../shared/schemas/figures.ts';
import { canonicalJson, sha256 } from '../../measuring/provenance.ts';
import { columnNames } from '../../store/column-names.ts';
import { unpacked } from '../../store/raw-files.ts';
import { KINDS, type Kind } from '../rows/kinds.ts';
import { type Fields, marksOf } from '../rows/marks.ts';
import { readRows } from '../rows/read-rows.ts';
import { fetchRecords } from './archive-records.ts';
import { archivedRows, type ArchivedRow as Row } from './archived-rows.ts';
import type { Exchange } from './exchange.ts';
import { mayLeave } from './may-leave.ts';
import { ANALYSIS_COLUMNS, RECORDING_COLUMNS } from './measured-columns.ts';
import { exchanged } from './push-rows.ts';
import { archivedChunks } from './raw-chunks.ts';

type Digests = Map<string, string>;

/** How the club and the archive agree on one table, by checksums of every row's content. */
export interface Comparison {
  table: string;
  equal: number;
  /** Identifiers of what only the club has, only the archive has, or both have otherwise. */
  only_here: string[];
  only_there: string[];
  different: string[];
}

const AT_ONCE = 100;

/**
 * Compares everything that may leave the club with what the archive has of it, byte by byte, by SHA-256: rows, recordings with their
 * samples, raw files by their bytes, analyses with every contact.
 */
export async function compareWithArchive(x: Exchange): Promise<Comparison[]> {
  const found: Comparison[] = [];
  for (const kind of KINDS) found.push(compare(kind.table, rowsHere(x, kind), await rowsThere(x, kind)));
  found.push(compare('recordings', recordingsHere(x), await recordingsThere(x)));
  found.push(compare('analyses and contacts', analysesHere(x), await analysesThere(x)));
  found.push(compare('raw files', rawHere(x), await rawThere(x)));
  return found;
}

function compare(table: string, here: Digests, there: Digests): Comparison {
  const both = [...here].filter(([id]) => there.has(id));
  return {
    table,
    equal: both.filter(([id, digest]) => there.get(id) === digest).length,
    only_here: [...here.keys()].filter((id) => !there.has(id)),
    only_there: [...there.keys()].filter((id) => !here.has(id)),
    different: both.filter(([id, digest]) => there.get(id) !== digest).map(([id]) => id),
  };
}

const digest = (fields: Fields) => sha256(canonicalJson(marksOf(fields)));

function rowsHere(x: Exchange, kind: Kind): Digests {
  const leaves = mayLeave(x, kind);
  const rows = [...readRows(x.store, kind, x.club_id)].filter(leaves);
  return new Map(rows.map((row) => [row.uuid, digest(exchanged(x, kind, row))]));
}

async function rowsThere(x: Exchange, kind: Kind): Promise<Digests> {
  const digests: Digests = new Map();
  for await (const ids of idsOf(x, 'records', 'record_id', `AND NOT gone AND kind = '${kind.table}'`))
    for (const [id, { fields }] of await fetchRecords(x, kind, ids)) digests.set(id, digest(fields));
  return digests;
}

function recordingDigest(row: Row, chunks: Row[]): string {
  const samples = chunks.map((chunk) => [
    chunk.channel,
    chunk.sequence,
    chunk.first_sample,
    chunk.samples,
    bytesOf(chunk),
  ]);
  return sha256(canonicalJson([RECORDING_COLUMNS.map((name) => row[name] ?? null), samples]));
}

const bytesOf = ({ bytes }: Row) => sha256(bytes as Uint8Array);
const CHUNK_ORDER = 'ORDER BY channel COLLATE "C", sequence';

function recordingsHere(x: Exchange): Digests {
  const rows = x.store
    .prepare('SELECT * FROM recordings WHERE recording_id IN (SELECT recording_id FROM repetition_recordings)')
    .all() as Row[];
  const chunks = x.store.prepare('SELECT * FROM recording_chunks WHERE recording_id = ? ORDER BY channel, sequence');
  return new Map(
    rows
      .filter((row) => x.allowed.has(row.athlete_id as number))
      .map((row) => [row.uuid as string, recordingDigest(row, chunks.all(row.recording_id) as Row[])]),
  );
}

async function recordingsThere(x: Exchange): Promise<Digests> {
  const digests: Digests = new Map();
  for await (const ids of idsOf(x, 'recordings', 'recording_id')) {
    for (const row of await archivedRows(x, 'recordings', 'recording_id', ids)) {
      const chunks = await archivedRows(
        x,
        'recording_chunks',
        'recording_id',
        [row.recording_id as string],
        CHUNK_ORDER,
      );
      digests.set(row.recording_id as string, recordingDigest(row, chunks));
    }
  }
  return digests;
}

/** @param ofContact what is compared of a contact */
function analysisDigest(ofContact: string[], row: Row, figures: Row, values: Row[], contacts: Row[]): string {
  const sorted = [...values].sort((a, b) => (String(a.quantity) < String(b.quantity) ? -1 : 1));
  return sha256(
    canonicalJson([
      ANALYSIS_COLUMNS.map((name) => row[name] ?? null),
      FIGURE_COLUMNS.map((name) => figures[name] ?? null),
      sorted.map(({ analysis_id: _, ...value }) => value),
      contacts.map((contact) => ofContact.map((name) => contact[name] ?? null)),
    ]),
  );
}

/** Columns of a contact without the number of its analysis, which is this machine's own. */
function contactNames(x: Exchange): string[] {
  return columnNames(x.store, 'contacts').filter((name) => name !== 'analysis_id');
}

function analysesHere(x: Exchange): Digests {
  const ofContact = contactNames(x);
  const rows = x.store
    .prepare('SELECT a.*, r.athlete_id FROM analyses a JOIN repetitions r USING (repetition_id)')
    .all() as Row[];
  const values = x.store.prepare('SELECT * FROM repetition_values WHERE analysis_id = ?');
  const contacts = x.store.prepare('SELECT * FROM contacts WHERE analysis_id = ? ORDER BY step');
  return new Map(
    rows
      .filter((row) => x.allowed.has(row.athlete_id as number))
      .map((row) => {
        const of = [values, contacts].map((statement) => statement.all(row.analysis_id) as Row[]);
        return [row.uuid as string, analysisDigest(ofContact, row, row, of[0], of[1])];
      }),
  );
}

async function analysesThere(x: Exchange): Promise<Digests> {
  const ofContact = contactNames(x);
  const digests: Digests = new Map();
  for await (const ids of idsOf(x, 'analyses', 'analysis_id')) {
    const contacts = await archivedRows(x, 'contacts', 'analysis_id', ids, 'ORDER BY step');
    const byAnalysis = new Map(ids.map((id) => [id, [] as Row[]]));
    for (const contact of contacts) byAnalysis.get(contact.analysis_id as string)!.push(contact);
    for (const row of await archivedRows(x, 'analyses', 'analysis_id', ids)) {
      const id = row.analysis_id as string;
      digests.set(id, analysisDigest(ofContact, row, row.figures as Row, row.values as Row[], byAnalysis.get(id)!));
    }
  }
  return digests;
}

function rawHere(x: Exchange): Digests {
  const rows = x.store
    .prepare(
      `SELECT DISTINCT raw_sha256, athlete_id FROM raw_files JOIN (
         SELECT raw_file_id, athlete_id FROM recordings JOIN repetition_recordings USING (recording_id)
         UNION SELECT raw_file_id, athlete_id FROM import_files JOIN imports USING (import_id)
           WHERE state IN ('done', 'failed', 'cancelled')
       ) USING (raw_file_id) WHERE raw_sha256 IS NOT NULL`,
    )
    .all() as { raw_sha256: string; athlete_id: number }[];
  return new Map(rows.filter((row) => x.allowed.has(row.athlete_id)).map((row) => [row.raw_sha256, row.raw_sha256]));
}

/** The hash of what is there now, not the one that was written beside it. */
async function rawThere(x: Exchange): Promise<Digests> {
  const digests: Digests = new Map();
  for await (const ids of idsOf(x, 'raw_files', 'raw_sha256')) {
    for (const id of ids) {
      const hash = createHash('sha256');
      for await (const { encoding, bytes } of archivedChunks(x, id))
        if (bytes !== null) hash.update(unpacked({ encoding, bytes }));
      digests.set(id, hash.digest('hex'));
    }
  }
  return digests;
}

async function* idsOf(x: Exchange, table: string, column: string, condition = ''): AsyncGenerator<string[]> {
  const { rows } = await x.client.query<{ id: string }>(
    `SELECT ${column} AS id FROM archive.${table} WHERE club_id = $1 ${condition} ORDER BY 1`,
    [x.club_id],
  );
  for (let from = 0; from < rows.length; from += AT_ONCE) yield rows.slice(from, from + AT_ONCE).map(({ id }) => id);
}
