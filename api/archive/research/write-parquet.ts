import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { batchOf } from '../../export/tables/column.ts';
import { dictionaryCsv } from '../../export/tables/data-package.ts';
import { ParquetFile } from '../../export/tables/write-parquet.ts';
import { type ArchiveClient, inTransaction } from '../connect.ts';
import { FROM_REPETITIONS, OF_YEAR } from './archive-rows.ts';
import { ARCHIVE_TABLES, type ArchiveTable } from './archive-tables.ts';

/** What was written, by `club/year`: a mark of everything it was made of. */
type Written = Record<string, string>;

export interface ParquetReport {
  written: number;
  unchanged: number;
  removed: number;
  contacts: number;
}

/** Rows a row group: large enough for engines that read columns, small enough for memory. */
const ROWS_A_GROUP = 20_000;
const STATE = 'written.json';

/**
 * Writes an archive as Parquet, a file a club and year (`contacts/club=.../year=.../part.parquet`, the same of repetitions), with the
 * dictionary beside them. What did not change since is left as it is; a file takes its name when it is whole. Run as a scientist, a
 * keeper or the owner.
 */
export async function writeArchiveParquet(client: ArchiveClient, folder: string): Promise<ParquetReport> {
  mkdirSync(folder, { recursive: true });
  const state = join(folder, STATE);
  const before: Written = existsSync(state) ? JSON.parse(readFileSync(state, 'utf8')) : {};
  const report: ParquetReport = { written: 0, unchanged: 0, removed: 0, contacts: 0 };
  const now = await partitions(client);
  const kept: Written = {};
  for (const [key, mark] of Object.entries(now)) {
    const there = ARCHIVE_TABLES.every(({ name }) => existsSync(join(folder, fileOf(name, key))));
    if (before[key] === mark && there) report.unchanged += 1;
    else {
      report.contacts += await writePartition(client, folder, key);
      report.written += 1;
    }
    kept[key] = mark;
    replaceFile(state, JSON.stringify({ ...before, ...kept }, null, 1));
  }
  report.removed = removeOthers(folder, Object.keys(now));
  replaceFile(state, JSON.stringify(kept, null, 1));
  replaceFile(join(folder, 'dictionary.csv'), dictionaryCsv(ARCHIVE_TABLES));
  return report;
}

/**
 * Every club and year of the archive with a mark of what it is made of: the counts of changes of its repetitions, their sessions and
 * people.
 */
async function partitions(client: ArchiveClient): Promise<Written> {
  const { rows } = await client.query<{ key: string; mark: string }>(
    `SELECT r.club_id || '/' || left(s.fields->>'session_date', 4) AS key,
       md5(string_agg(concat_ws(':', r.record_id, r.change_number, s.change_number, p.change_number), ',' ORDER BY r.record_id)) AS mark
     ${FROM_REPETITIONS}
     WHERE r.kind = 'repetitions' AND NOT r.gone AND r.fields->>'analysis_id' IS NOT NULL
     GROUP BY 1 ORDER BY 1`,
  );
  return Object.fromEntries(rows.map(({ key, mark }) => [key, mark]));
}

/** @returns how many contacts, which are the last of the tables */
function writePartition(client: ArchiveClient, folder: string, key: string): Promise<number> {
  const write = async () => {
    let rows = 0;
    for (const table of ARCHIVE_TABLES)
      rows = await writeRows(client, table, key, join(folder, fileOf(table.name, key)));
    return rows;
  };
  // One look at the archive for both files.
  return inTransaction(client, write, 'ISOLATION LEVEL REPEATABLE READ READ ONLY');
}

async function writeRows(
  client: ArchiveClient,
  { sql, columns, row }: ArchiveTable,
  key: string,
  path: string,
): Promise<number> {
  const [club_id, year] = key.split('/');
  await client.query(`DECLARE asked NO SCROLL CURSOR FOR ${sql(OF_YEAR)}`, [club_id, Number(year)]);
  const file = new ParquetFile(columns);
  let count = 0;
  async function* parts(): AsyncGenerator<Uint8Array> {
    for (;;) {
      const { rows } = await client.query<Record<string, unknown>>(`FETCH ${ROWS_A_GROUP} FROM asked`);
      if (rows.length === 0) break;
      count += rows.length;
      yield file.write(batchOf(columns, rows.map(row)));
    }
    yield file.finish();
  }
  await replaceFileWith(path, parts());
  await client.query('CLOSE asked');
  return count;
}

function fileOf(table: string, key: string): string {
  const [club_id, year] = key.split('/');
  return join(table, `club=${club_id}`, `year=${year}`, 'part.parquet');
}

/** Files of clubs and years of which nothing is left: somebody was erased, or does not agree any longer. */
function removeOthers(folder: string, keys: string[]): number {
  let removed = 0;
  for (const { name: table } of ARCHIVE_TABLES) {
    const wanted = new Set(keys.map((key) => fileOf(table, key)));
    for (const club of foldersIn(join(folder, table))) {
      for (const year of foldersIn(join(folder, table, club))) {
        if (wanted.has(join(table, club, year, 'part.parquet'))) continue;
        rmSync(join(folder, table, club, year), { recursive: true });
        removed += 1;
      }
    }
  }
  return removed;
}

function foldersIn(folder: string): string[] {
  return existsSync(folder) ? readdirSync(folder).filter((name) => /^(?:club|year)=/.test(name)) : [];
}

function replaceFile(path: string, text: string): void {
  writeFileSync(`${path}.part`, text);
  renameSync(`${path}.part`, path);
}

/** A file takes the place of an older one when it is whole and on the disk. */
async function replaceFileWith(path: string, parts: AsyncIterable<Uint8Array>): Promise<void> {
  mkdirSync(dirname(path), { recursive: true });
  const fd = openSync(`${path}.part`, 'w');
  try {
    for await (const part of parts) writeSync(fd, part);
    fsyncSync(fd);
  } finally {
    closeSync(fd);
  }
  renameSync(`${path}.part`, path);
}
