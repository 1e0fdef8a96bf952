import { Identities } from '../rows/identities.ts';
import { KINDS, type Kind, kindOf } from '../rows/kinds.ts';
import { readRows } from '../rows/read-rows.ts';
import { agreedRow } from './agreed-rows.ts';
import { type ArchiveRecord, fetchRecords } from './archive-records.ts';
import type { Exchange } from './exchange.ts';
import { exchangePeople } from './people.ts';
import { fetchMeasured, pullRawFile, storeMeasured } from './pull-measured.ts';
import { newRecords, pullKind, takeRecord } from './pull-rows.ts';
import { settleHere } from './push-rows.ts';

export interface PullReport {
  rows: number;
  repetitions: number;
  left_out: number;
}

/**
 * Brings what the archive has of the club to this machine: an empty one is filled, another one gets what its neighbours sent. A
 * repetition comes with its recordings and results in one transaction, so that none is ever seen without; whatever ends it, the next
 * one goes on.
 */
export async function pull(x: Exchange): Promise<PullReport> {
  await exchangePeople(x);
  const report: PullReport = { rows: 0, repetitions: 0, left_out: 0 };
  for (const kind of pullOrder()) {
    if (kind.table === 'repetitions') await pullRepetitions(x, kind, report);
    else {
      const { rows, left_out } = await pullKind(x, kind);
      report.rows += rows;
      report.left_out += left_out;
    }
    if (kind.table === 'imports') await pullFilesOfImports(x);
  }
  await x.client.query('UPDATE archive.machines SET last_pull_utc = now() WHERE club_id = $1 AND machine_id = $2', [
    x.club_id,
    x.machine_id,
  ]);
  return report;
}

/** Sessions come before the repetitions in them, imports before the recordings that came by them. */
function pullOrder(): Kind[] {
  const imports = KINDS.filter(({ table }) => table === 'imports');
  const others = KINDS.filter(({ table }) => table !== 'imports');
  const at = others.findIndex(({ table }) => table === 'repetitions');
  return [...others.slice(0, at), ...imports, ...others.slice(at)];
}

async function pullRepetitions(x: Exchange, kind: Kind, report: PullReport): Promise<void> {
  const analyses = await missingAnalyses(x);
  for await (const records of newRecords(x, kind)) {
    for (const record of records) {
      const taken = await pullRepetition(x, kind, record, analyses.get(record.record_id) ?? []);
      analyses.delete(record.record_id);
      if (!taken) report.left_out += 1;
      else report.repetitions += 1;
      if (report.repetitions % 100 === 0) x.tell(`${report.repetitions} repetitions`);
    }
  }
  // Results that came beside: of a re-analysis in the archive.
  const ids = new Identities(x.store);
  for (const [repetition, analysis_ids] of analyses) {
    const repetition_id = ids.numberOf('repetitions', repetition);
    if (repetition_id === null) continue;
    const measured = await fetchMeasured(x, [], analysis_ids);
    x.store.transaction(() => storeMeasured(x, repetition_id, measured, {}));
  }
}

async function pullRepetition(x: Exchange, kind: Kind, record: ArchiveRecord, analyses: string[]): Promise<boolean> {
  const { recordings, analysis_id } = record.fields as { recordings: string[]; analysis_id: string | null };
  const measured = await fetchMeasured(x, recordings ?? [], analyses);
  const agreed = agreedRow(x.store, kind, record.record_id);
  const known = new Identities(x.store).numberOf('repetitions', record.record_id);
  const [local] = known === null ? [] : readRows(x.store, kind, x.club_id, String(known));
  const taken = x.store.transaction(() => {
    const taken = takeRecord(x, kind, record, agreed, local);
    if (taken === null || taken.local_key === null) return taken;
    const repetition_id = Number(taken.local_key);
    storeMeasured(x, repetition_id, measured, {
      ...('recordings' in taken.pending ? {} : { recordings }),
      ...('analysis_id' in taken.pending ? {} : { analysis_id }),
    });
    const [row] = readRows(x.store, kind, x.club_id, taken.local_key);
    settleHere(x, kind, row, record.fields, { change: record.change_number, conflicts: [], pending: taken.pending });
    return taken;
  });
  await taken?.tellConflicts();
  return taken !== null;
}

/** Analyses in the archive that are not here, by the repetition they are of. */
async function missingAnalyses(x: Exchange): Promise<Map<string, string[]>> {
  const { rows } = await x.client.query<{ analysis_id: string; repetition_id: string }>(
    'SELECT analysis_id, repetition_id FROM archive.analyses WHERE club_id = $1 ORDER BY analysis_id',
    [x.club_id],
  );
  const here = new Set(
    (x.store.prepare('SELECT uuid FROM analyses').all() as { uuid: string }[]).map(({ uuid }) => uuid),
  );
  const missing = new Map<string, string[]>();
  for (const { analysis_id, repetition_id } of rows)
    if (!here.has(analysis_id)) missing.set(repetition_id, [...(missing.get(repetition_id) ?? []), analysis_id]);
  return missing;
}

/** Raw files that imports name, those of failed ones among them, and the ties between both. */
async function pullFilesOfImports(x: Exchange): Promise<void> {
  const kind = kindOf('imports');
  const ids = new Identities(x.store);
  const { rows } = await x.client.query<{ record_id: string; n: number }>(
    `SELECT record_id, json_array_length((fields->'files')::json) AS n FROM archive.records
       WHERE club_id = $1 AND kind = $2 AND NOT gone`,
    [x.club_id, kind.table],
  );
  const lacking = rows.filter(({ record_id, n }) => {
    const import_id = ids.numberOf('imports', record_id);
    const count = x.store.prepare('SELECT count(*) AS n FROM import_files WHERE import_id = ?').get(import_id);
    return import_id !== null && (count as { n: number }).n < n;
  });
  const records = await fetchRecords(
    x,
    kind,
    lacking.map(({ record_id }) => record_id),
  );
  for (const { record_id, fields, change_number: change } of records.values()) {
    const import_id = ids.numberOf('imports', record_id)!;
    const names = (fields.file_names ?? {}) as Record<string, string>;
    for (const { side, raw_sha256 } of fields.files as { side: string; raw_sha256: string }[]) {
      await pullRawFile(x, raw_sha256);
      x.store
        .prepare(
          `INSERT OR IGNORE INTO import_files (import_id, side, raw_file_id, file_name)
             SELECT ?, ?, raw_file_id, coalesce(?, file_name) FROM raw_files WHERE raw_sha256 = ?`,
        )
        .run(import_id, side, names[side] ?? null, raw_sha256);
    }
    const [row] = readRows(x.store, kind, x.club_id, String(import_id));
    const agreed = agreedRow(x.store, kind, record_id);
    if (row && agreed) settleHere(x, kind, row, fields, { change, conflicts: [], pending: agreed.marks });
  }
}
