import { FaultError, fault } from '../../../shared/fault.ts';
import { Pseudonyms } from '../../export/pseudonyms.ts';
import { columnNames } from '../../store/column-names.ts';
import { KINDS, type Kind } from '../rows/kinds.ts';
import { readRows } from '../rows/read-rows.ts';
import { contactColumns } from '../upgrade-schema.ts';
import { agreedRows } from './agreed-rows.ts';
import { archiveTransaction, type Exchange } from './exchange.ts';
import { exchangePeople } from './people.ts';
import { archivedBulk, pushMeasured, repetitionsWithNews } from './push-measured.ts';
import { pushRawFile } from './push-raw.ts';
import { pushInParts, pushKind, pushRows, waitingRows } from './push-rows.ts';

export interface PushReport {
  rows: number;
  repetitions: number;
  /** Athletes of the club that did not agree: their data are on this machine alone. */
  stayed: number;
  /** Raw files that hold a name and were not sent, for want of the club's passphrase. */
  raw_files_left: number;
}

/** The same while it is counted: a file may be tried on more than one way. */
type Counted = Omit<PushReport, 'raw_files_left'> & { left: Set<number> };

/** The archive refused a row of somebody who was erased or taken out at this very moment. */
const PERSON_LEFT = 'AR001';
const TRIES = 5;

/**
 * Sends what the archive lacks: first what concerns whole people, then what changed, each repetition with its raw bytes, samples and
 * results in a transaction of its own. Whatever ends it, the next one goes on where it was.
 */
export async function push(x: Exchange): Promise<PushReport> {
  await refuseUnknownColumns(x);
  for (let tries = 1; ; tries++) {
    await exchangePeople(x);
    try {
      return await pushAll(x);
    } catch (error) {
      if ((error as { code?: string }).code !== PERSON_LEFT || tries === TRIES) throw error;
    }
  }
}

async function pushAll(x: Exchange): Promise<PushReport> {
  namePeople(x);
  const report: Counted = { rows: 0, repetitions: 0, stayed: peopleWhoStay(x), left: new Set() };
  for (const kind of KINDS) {
    if (kind.table === 'repetitions') await pushRepetitions(x, kind, report);
    else report.rows += await pushKind(x, kind);
    if (kind.table === 'imports') await pushUnusedFiles(x, report);
  }
  await x.client.query('UPDATE archive.machines SET last_push_utc = now() WHERE club_id = $1 AND machine_id = $2', [
    x.club_id,
    x.machine_id,
  ]);
  const { left, ...counted } = report;
  return { ...counted, raw_files_left: left.size };
}

async function pushRepetitions(x: Exchange, kind: Kind, report: Counted): Promise<void> {
  const bulk = await archivedBulk(x);
  const news = repetitionsWithNews(x, bulk);
  const { changed } = await waitingRows(x, kind);
  const waiting = new Map(changed.map((one) => [Number(one.row.local_key), one]));
  const agreed = agreedRows(x.store, kind);
  for (const repetition_id of news) {
    if (waiting.has(repetition_id)) continue;
    const [row] = readRows(x.store, kind, x.club_id, String(repetition_id));
    if (row) waiting.set(repetition_id, { row, agreed: agreed.get(row.uuid) ?? null });
  }
  for (const year of yearsOf(x, news)) await x.client.query('SELECT archive.make_partition($1)', [year]);
  const plain = [...waiting].filter(([repetition_id]) => !news.has(repetition_id)).map(([, one]) => one);
  await pushInParts(x, kind, plain);
  let done = 0;
  for (const [repetition_id, one] of waiting) {
    if (!news.has(repetition_id)) continue;
    await pushRows(x, kind, [one], async () => {
      for (const raw_file_id of await pushMeasured(x, repetition_id, bulk)) report.left.add(raw_file_id);
    });
    done += 1;
    if (done % 100 === 0) x.tell(`${done} of ${news.size} repetitions`);
  }
  report.repetitions = done;
  report.rows += plain.length;
}

/** Files of imports that no repetition came of: kept, as they are here, to be tried again. */
async function pushUnusedFiles(x: Exchange, { left }: Counted): Promise<void> {
  const files = x.store
    .prepare(
      `SELECT DISTINCT f.raw_file_id, f.raw_sha256, i.athlete_id, a.uuid AS person_id FROM raw_files f
         JOIN import_files USING (raw_file_id) JOIN imports i USING (import_id) JOIN athletes a USING (athlete_id)
         WHERE f.raw_sha256 IS NOT NULL AND i.state IN ('done', 'failed', 'cancelled')`,
    )
    .all() as { raw_file_id: number; raw_sha256: string; athlete_id: number; person_id: string }[];
  const { rows } = await x.client.query<{ raw_sha256: string; person_id: string }>(
    'SELECT raw_sha256, person_id FROM archive.raw_file_people WHERE club_id = $1',
    [x.club_id],
  );
  const there = new Set(rows.map((row) => `${row.raw_sha256} ${row.person_id}`));
  for (const { raw_file_id, raw_sha256, athlete_id, person_id } of files) {
    if (!x.allowed.has(athlete_id) || there.has(`${raw_sha256} ${person_id}`)) continue;
    const sent = await archiveTransaction(x, () => pushRawFile(x, raw_file_id, athlete_id, person_id));
    if (!sent) left.add(raw_file_id);
  }
}

/** Who leaves under a pseudonym has one, the same as in every export. */
function namePeople(x: Exchange): void {
  const names = new Pseudonyms(x.store);
  x.store.transaction(() => {
    for (const athlete_id of x.allowed) names.athlete(athlete_id);
  });
}

function peopleWhoStay(x: Exchange): number {
  const rows = x.store.prepare('SELECT athlete_id FROM athletes WHERE deleted_utc IS NULL').all();
  return (rows as { athlete_id: number }[]).filter(({ athlete_id }) => !x.allowed.has(athlete_id)).length;
}

function yearsOf(x: Exchange, repetitions: Set<number>): number[] {
  const rows = x.store
    .prepare(
      `SELECT DISTINCT CAST(substr(session_date, 1, 4) AS INTEGER) AS year FROM sessions JOIN repetitions USING (session_id)
         WHERE repetition_id IN (SELECT value FROM json_each(?))`,
    )
    .all(JSON.stringify([...repetitions])) as { year: number }[];
  return rows.map(({ year }) => year);
}

/** A quantity that the archive has no column for would be lost in silence. */
async function refuseUnknownColumns(x: Exchange): Promise<void> {
  const there = new Set(await contactColumns(x.client));
  if (columnNames(x.store, 'contacts').every((name) => there.has(name))) return;
  throw new FaultError(fault('ARCHIVE_OLDER', { host: x.client.host }, { host: x.client.host }));
}
