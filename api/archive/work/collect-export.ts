import { createHash } from 'node:crypto';
import { gunzipSync } from 'node:zlib';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { ExportTable } from '../../export/tables/column.ts';
import { dataPackage, dictionaryCsv } from '../../export/tables/data-package.ts';
import { csvHeader } from '../../export/tables/write-csv.ts';
import { checksumsPath, withChecksums } from '../../export/checksums.ts';
import type { ExportSink } from '../../export/sink.ts';
import { nowUtc } from '../../store/store.ts';
import type { ArchiveClient } from '../connect.ts';
import { ARCHIVE_TABLES, type ArchiveTable } from '../research/archive-tables.ts';
import type { WantedExport } from './do-export.ts';

interface Part {
  club_id: string;
  repetition_id: string;
}

/**
 * Puts an export's parts together: one CSV a table with a data package, or Parquet, a file a part; with the dictionary and checksums.
 * One part is in memory at a time.
 * @throws FaultError RUN_NOT_ENDED while a part is missing: half an export looks like a whole one
 * @returns rows of each table
 */
export async function collectExport(
  client: ArchiveClient,
  run_id: string,
  to: ExportSink,
): Promise<Record<string, number>> {
  const { rows: runs } = await client.query<{ wanted: WantedExport; missing: number }>(
    `SELECT wanted, (SELECT count(*)::int FROM archive.run_items i WHERE i.run_id = r.run_id AND i.state <> 'done') AS missing
       FROM archive.runs r WHERE run_id = $1`,
    [run_id],
  );
  const [{ wanted, missing }] = runs;
  if (missing > 0) throw new FaultError(fault('RUN_NOT_ENDED', { run: run_id, missing }, { run: run_id }));
  const { sink, write } = withChecksums(to);
  const counts: Record<string, number> = {};
  const files = new Map<string, { size: number; sha256: string }>();
  for (const table of ARCHIVE_TABLES) {
    const { rows: parts } = await client.query<Part & { n: number }>(
      `SELECT f.club_id, f.repetition_id, (i.outcome->>$2)::int AS n
         FROM archive.run_files f JOIN archive.run_items i USING (run_id, club_id, repetition_id)
         WHERE f.run_id = $1 AND f.name = $2 ORDER BY f.club_id, f.repetition_id`,
      [run_id, table.name],
    );
    counts[table.name] = parts.reduce((sum, { n }) => sum + n, 0);
    const bytesOf = (part: Part) => fileOf(client, run_id, table, part);
    if (wanted.format === 'csv') files.set(`${table.name}.csv`, await addCsv(sink, table, parts, bytesOf));
    else
      for (const [i, part] of parts.entries())
        await sink.add(`${table.name}/part-${String(i + 1).padStart(4, '0')}.parquet`, [await bytesOf(part)]);
  }
  await sink.add('dictionary.csv', [dictionaryCsv(ARCHIVE_TABLES)]);
  if (wanted.format === 'csv') {
    const described = ARCHIVE_TABLES.map((table) => describedTable(table, counts[table.name]));
    await sink.add('datapackage.json', [`${JSON.stringify(dataPackage(described, files, nowUtc()), null, 1)}\n`]);
  }
  await write(checksumsPath('tables'));
  return counts;
}

async function addCsv(
  sink: ExportSink,
  { name, columns }: ArchiveTable,
  parts: Part[],
  bytesOf: (part: Part) => Promise<Buffer>,
): Promise<{ size: number; sha256: string }> {
  const hash = createHash('sha256');
  let size = 0;
  async function* whole(): AsyncGenerator<Uint8Array> {
    for (const piece of [null, ...parts]) {
      const bytes = piece === null ? Buffer.from(csvHeader(columns)) : gunzipSync(await bytesOf(piece));
      hash.update(bytes);
      size += bytes.length;
      yield bytes;
    }
  }
  await sink.add(`${name}.csv`, whole());
  return { size, sha256: hash.digest('hex') };
}

async function fileOf(client: ArchiveClient, run_id: string, { name }: ArchiveTable, part: Part): Promise<Buffer> {
  const { rows } = await client.query<{ bytes: Buffer }>(
    'SELECT bytes FROM archive.run_files WHERE run_id = $1 AND club_id = $2 AND repetition_id = $3 AND name = $4',
    [run_id, part.club_id, part.repetition_id, name],
  );
  if (rows.length === 0) throw new FaultError(fault('REPETITION_LEFT_ARCHIVE.export', {}));
  return rows[0].bytes;
}

/** For the data package, which describes tables and reads none of them. */
function describedTable({ name, title, columns, primary_key }: ArchiveTable, rows: number): ExportTable {
  const toRepetition = { fields: ['repetition_uuid'], table: 'repetitions', reference: ['repetition_uuid'] };
  const foreign_keys = name === 'contacts' ? [toRepetition] : [];
  return { name, title, columns, primary_key, foreign_keys, rows, batches: () => [] };
}
