import { gzipSync } from 'node:zlib';
import { batchOf } from '../../export/tables/column.ts';
import { csvRows } from '../../export/tables/write-csv.ts';
import { ParquetFile } from '../../export/tables/write-parquet.ts';
import type { ArchiveClient } from '../connect.ts';
import { ARCHIVE_TABLES, type ArchiveTable } from '../research/archive-tables.ts';
import { OF_PEOPLE } from '../research/archive-rows.ts';
import type { DoJob, JobItem } from './job.ts';

export const EXPORT_FORMATS = ['csv', 'parquet'] as const;
export interface WantedExport {
  format: (typeof EXPORT_FORMATS)[number];
  from: string | null;
  to: string | null;
}

/** Writes the tables of some people of one club as files of the archive: rows of CSV without a header (gzip), or Parquet. */
export const exportPart: DoJob = async (client, item, run) => {
  const wanted = run.wanted as unknown as WantedExport;
  const started = performance.now();
  const files: { name: string; bytes: Buffer }[] = [];
  const rows: Record<string, number> = {};
  let read_s = 0;
  for (const table of ARCHIVE_TABLES) {
    const asked = performance.now();
    const found = await client.query<Record<string, unknown>>(table.sql(OF_PEOPLE), [
      item.club_id,
      item.people,
      wanted.from,
      wanted.to,
    ]);
    read_s += (performance.now() - asked) / 1000;
    rows[table.name] = found.rows.length;
    if (found.rows.length > 0) files.push({ name: table.name, bytes: fileOf(table, found.rows, wanted.format) });
  }
  const analysed_s = (performance.now() - started) / 1000 - read_s;
  const read_bytes = files.reduce((sum, { bytes }) => sum + bytes.length, 0);
  return { fault: null, read_s, analysed_s, read_bytes, store: (to) => storeFiles(to, item, files, rows) };
};

function fileOf(table: ArchiveTable, rows: Record<string, unknown>[], format: WantedExport['format']): Buffer {
  const batch = batchOf(table.columns, rows.map(table.row));
  if (format === 'csv') return gzipSync(csvRows(table.columns, batch));
  const file = new ParquetFile(table.columns);
  return Buffer.concat([file.write(batch), file.finish()]);
}

async function storeFiles(
  client: ArchiveClient,
  { run_id, club_id, repetition_id, people }: JobItem,
  files: { name: string; bytes: Buffer }[],
  rows: Record<string, number>,
) {
  const key = [run_id, club_id, repetition_id];
  // Somebody left while this was read: the part must not come back with them in it.
  const { rows: now } = await client.query<{ people: string[] }>(
    'SELECT people FROM archive.run_items WHERE run_id = $1 AND club_id = $2 AND repetition_id = $3 FOR UPDATE',
    key,
  );
  if (JSON.stringify(now[0]?.people) !== JSON.stringify(people))
    throw new Error('somebody of this part left the archive');
  await client.query('DELETE FROM archive.run_files WHERE run_id = $1 AND club_id = $2 AND repetition_id = $3', key);
  for (const { name, bytes } of files)
    await client.query('INSERT INTO archive.run_files VALUES ($1, $2, $3, $4, $5)', [...key, name, bytes]);
  return { outcome: rows };
}
