import { FIGURE_COLUMNS } from '../../../shared/schemas/figures.ts';
import { Identities } from '../rows/identities.ts';
import type { Exchange } from './exchange.ts';
import { ANALYSIS_COLUMNS, RECORDING_COLUMNS } from './measured-columns.ts';
import { pushRawFile } from './push-raw.ts';

type Row = Record<string, unknown>;
/** Whose rows, over which connection. */
type ArchivedClub = Pick<Exchange, 'client' | 'club_id'>;

/** What of the club the archive has that never changes, by identifier. */
export interface ArchivedBulk {
  recordings: Set<string>;
  analyses: Set<string>;
}

export async function archivedBulk(x: Exchange): Promise<ArchivedBulk> {
  const ids = async (column: string, table: string) => {
    const { rows } = await x.client.query<{ id: string }>(
      `SELECT ${column} AS id FROM archive.${table} WHERE club_id = $1`,
      [x.club_id],
    );
    return new Set(rows.map(({ id }) => id));
  };
  return { recordings: await ids('recording_id', 'recordings'), analyses: await ids('analysis_id', 'analyses') };
}

/** Repetitions with a recording or an analysis that the archive lacks, by local number, of people who agreed. */
export function repetitionsWithNews(x: Exchange, { recordings, analyses }: ArchivedBulk): Set<number> {
  const rows = x.store
    .prepare(
      `SELECT r.repetition_id, r.athlete_id, a.uuid, 'analysis' AS what FROM analyses a JOIN repetitions r USING (repetition_id)
       UNION ALL SELECT r.repetition_id, r.athlete_id, c.uuid, 'recording' FROM recordings c
         JOIN repetition_recordings USING (recording_id) JOIN repetitions r USING (repetition_id)`,
    )
    .all() as { repetition_id: number; athlete_id: number; uuid: string; what: string }[];
  const missing = rows.filter(
    ({ athlete_id, uuid, what }) =>
      x.allowed.has(athlete_id) && !(what === 'analysis' ? analyses : recordings).has(uuid),
  );
  return new Set(missing.map(({ repetition_id }) => repetition_id));
}

/**
 * Sends everything a repetition rests on and every result of it that the archive lacks. To be called inside the transaction that sends
 * the repetition.
 * @returns numbers of raw files that had to stay here
 */
export async function pushMeasured(x: Exchange, repetition_id: number, bulk: ArchivedBulk): Promise<number[]> {
  const { athlete_id, day } = x.store
    .prepare(
      'SELECT r.athlete_id, s.session_date AS day FROM repetitions r JOIN sessions s USING (session_id) WHERE repetition_id = ?',
    )
    .get(repetition_id) as { athlete_id: number; day: string };
  const ids = new Identities(x.store);
  const person_id = ids.uuidOf('athletes', athlete_id)!;
  const left: number[] = [];
  for (const recording of rowsOf(
    x,
    'SELECT c.* FROM recordings c JOIN repetition_recordings USING (recording_id) WHERE repetition_id = ?',
    repetition_id,
  )) {
    if (bulk.recordings.has(recording.uuid as string)) continue;
    // Whose it is decides, not who runs the repetition now.
    if (!x.allowed.has(recording.athlete_id as number)) continue;
    if (!(await pushRecording(x, recording, ids))) left.push(recording.raw_file_id as number);
  }
  for (const analysis of rowsOf(x, 'SELECT * FROM analyses WHERE repetition_id = ?', repetition_id))
    if (!bulk.analyses.has(analysis.uuid as string)) await pushAnalysis(x, analysis, person_id, day, ids);
  return left;
}

async function pushRecording(x: Exchange, recording: Row, ids: Identities): Promise<boolean> {
  const { uuid, recording_id, athlete_id, raw_file_id, import_id, file_name, layout, evidence } = recording;
  const person_id = ids.uuidOf('athletes', athlete_id)!;
  const sent = raw_file_id === null || (await pushRawFile(x, raw_file_id as number, athlete_id as number, person_id));
  const raw = x.store.prepare('SELECT raw_sha256 FROM raw_files WHERE raw_file_id = ?').get(raw_file_id) as
    | Row
    | undefined;
  await insertMeasured(x, 'recordings', {
    recording_id: uuid,
    person_id,
    import_id: ids.uuidOf('imports', import_id),
    raw_sha256: raw?.raw_sha256 ?? null,
    ...Object.fromEntries(RECORDING_COLUMNS.map((name) => [name, recording[name]])),
    hidden: x.hidden.pack({ file_name, layout, evidence }, `${x.club_id}/recordings/${uuid}`),
  });
  for (const chunk of rowsOf(x, 'SELECT * FROM recording_chunks WHERE recording_id = ?', recording_id as number))
    await insertMeasured(x, 'recording_chunks', { ...chunk, recording_id: uuid });
  return sent;
}

async function pushAnalysis(
  x: Exchange,
  analysis: Row,
  person_id: string,
  day: string,
  ids: Identities,
): Promise<void> {
  const analysis_id = analysis.uuid as string;
  await insertMeasured(x, 'analyses', {
    analysis_id,
    repetition_id: ids.uuidOf('repetitions', analysis.repetition_id),
    person_id,
    day,
    ...Object.fromEntries(ANALYSIS_COLUMNS.map((name) => [name, analysis[name]])),
    figures: JSON.stringify(Object.fromEntries(FIGURE_COLUMNS.map((name) => [name, analysis[name] ?? null]))),
    values: JSON.stringify(
      rowsOf(x, 'SELECT * FROM repetition_values WHERE analysis_id = ?', analysis.analysis_id as number).map(
        ({ analysis_id: _, ...value }) => value,
      ),
    ),
  });
  const contacts = rowsOf(x, 'SELECT * FROM contacts WHERE analysis_id = ?', analysis.analysis_id as number);
  await insertContacts(
    x,
    contacts.map((contact) => ({ ...contact, analysis_id })),
    day,
  );
}

/** @param contacts rows with the analysis's identifier */
export async function insertContacts(x: ArchivedClub, contacts: Row[], day: string): Promise<void> {
  if (contacts.length === 0) return;
  const rows = contacts.map((contact) => ({ ...contact, club_id: x.club_id, day }));
  await x.client.query(
    'INSERT INTO archive.contacts SELECT * FROM json_populate_recordset(null::archive.contacts, $1::json)',
    [JSON.stringify(rows)],
  );
}

/** Puts a row into a table of the archive. @returns whether it was not there before */
export async function insertMeasured(x: ArchivedClub, table: string, values: Row): Promise<boolean> {
  const columns = ['club_id', ...Object.keys(values)];
  const { rowCount } = await x.client.query(
    `INSERT INTO archive.${table} (${columns.map((name) => `"${name}"`).join(', ')})
       VALUES (${columns.map((_, i) => `$${i + 1}`).join(', ')}) ON CONFLICT DO NOTHING`,
    [x.club_id, ...Object.values(values)],
  );
  return rowCount === 1;
}

function rowsOf(x: Exchange, sql: string, id: number): Row[] {
  return x.store.prepare(sql).all(id) as Row[];
}
