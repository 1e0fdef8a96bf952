import { capital } from '../../../shared/capital.ts';
import { speechOf } from '../../../shared/messages/speeches.ts';
import { tellAll } from '../../../shared/messages/tell-all.ts';
import { createHash } from 'node:crypto';
import type { ExportOrder } from '../../../shared/schemas/export.ts';
import type { Store } from '../../store/store.ts';
import { VERSION } from '../../version.ts';
import { methodStatement } from '../method-statement.ts';
import type { Selection } from '../selection.ts';
import type { ExportSink } from '../sink.ts';
import { buildTables } from './build-tables.ts';
import { type LevelStatement, levelStatement } from '../privacy/levels.ts';
import { openTables } from './open-tables.ts';
import { Pseudonyms } from '../pseudonyms.ts';
import type { ExportTable } from './column.ts';
import { dataPackage, dictionaryCsv } from './data-package.ts';
import { freeMemoryOfBatches } from '../../free-memory.ts';
import { csvParts } from './write-csv.ts';
import { parquetParts } from './write-parquet.ts';

/** Writes the tidy export: each table as CSV and Parquet, dictionary, data package, methods, provenance, README. */
export async function writeTables(
  store: Store,
  selection: Selection,
  order: ExportOrder,
  created_utc: string,
  sink: ExportSink,
): Promise<void> {
  const level = levelStatement(order);
  const built = buildTables(store, selection, order);
  const tables = level.level === 'open' ? openTables(built, shiftOfPseudonym(store, selection)) : built;
  const files = new Map<string, { size: number; sha256: string }>();
  for (const table of tables) {
    files.set(`${table.name}.csv`, await addHashed(sink, `${table.name}.csv`, collected(csvParts(table))));
    await sink.add(`${table.name}.parquet`, collected(parquetParts(table)));
  }
  const json = (value: unknown): string[] => [`${JSON.stringify(tellAll(value, speechOf('en')), null, 1)}\n`];
  const created = level.level === 'open' ? null : created_utc;
  await sink.add('datapackage.json', json(dataPackage(tables, files, created)));
  await sink.add('dictionary.csv', [dictionaryCsv(tables)]);
  await sink.add('methods.txt', [methodStatement(store, selection)]);
  await sink.add('provenance.json', json(provenance(store, selection, order, created, files)));
  await sink.add('deidentification.json', json(level));
  await sink.add('README.md', [readme(tables, selection, level)]);
}

/** The same parts; what each left is collected before the next is made. */
function* collected<Part>(parts: Iterable<Part>): Generator<Part> {
  for (const part of parts) {
    yield part;
    freeMemoryOfBatches();
  }
}

function shiftOfPseudonym(store: Store, selection: Selection): (athlete: string) => number {
  const names = new Pseudonyms(store);
  const shifts = new Map(selection.athlete_ids.map((id) => [names.athlete(id), names.dayShift(id)]));
  return (athlete) => shifts.get(athlete)!;
}

async function addHashed(
  sink: ExportSink,
  path: string,
  parts: Iterable<string>,
): Promise<{ size: number; sha256: string }> {
  const hash = createHash('sha256');
  let size = 0;
  function* counted(): Generator<Buffer> {
    for (const part of parts) {
      const bytes = Buffer.from(part);
      hash.update(bytes);
      size += bytes.length;
      yield bytes;
    }
  }
  await sink.add(path, counted());
  return { size, sha256: hash.digest('hex') };
}

/** What made the results: versions, settings in full, hashes of every file. */
function provenance(
  store: Store,
  selection: Selection,
  order: ExportOrder,
  created_utc: string | null,
  files: Map<string, { size: number; sha256: string }>,
): object {
  const settings = store
    .prepare(
      `SELECT DISTINCT settings_sha256, settings, version, method, filters FROM analyses
       WHERE analysis_id IN (SELECT value FROM json_each(?)) ORDER BY settings_sha256, version`,
    )
    .all(JSON.stringify(selection.repetitions.map((r) => r.analysis_id))) as Record<string, string>[];
  const { athlete_ids: _a, group_ids: _g, session_ids: _s, repetition_ids: _r, ...listed } = order;
  // Days that an order names are true ones.
  const { from: _from, to: _to, ...undated } = listed;
  const plain = created_utc === null ? undated : listed;
  return {
    exported_with: VERSION,
    ...(created_utc === null ? {} : { created_utc }),
    order: plain,
    analyses: settings.map((row) => ({
      ...row,
      settings: JSON.parse(row.settings),
      filters: JSON.parse(row.filters),
    })),
    files: Object.fromEntries(files),
  };
}

function readme(tables: ExportTable[], selection: Selection, level: LevelStatement): string {
  return `# Ground contacts of sprint repetitions

${selection.athlete_ids.length} athletes, ${selection.repetitions.length} repetitions. Made by Cinderlane ${VERSION}.

| file | what it holds |
|---|---|
${tables.map((t) => `| ${t.name}.csv, ${t.name}.parquet | ${t.title}: ${t.rows} rows |`).join('\n')}
| dictionary.csv | every column: type, unit, definition, source |
| datapackage.json | the same for programs: types, constraints, keys (open data package, Table Schema) |
| methods.txt | how it was measured, ready for a methods section, and how to cite |
| deidentification.json | what was done so that people are not recognised, and what is left |
| provenance.json | versions, settings in full, filters as they acted, hashes of the files |

CSV: UTF-8, comma, a header row, one record a line; an empty field is 'not measurable', never zero. Column names carry their
unit; a column that ends in \`_u\` is the standard uncertainty of the one before it. Join contacts to repetitions by
repetition_id, repetitions to sessions by session, and to athletes by athlete. All athletes here have agreed to use
in research.

Level: ${level.level}. ${level.meaning} ${level.done.map((text) => `${capital(text)}.`).join(' ')}

A side difference or a long contact is no sign of injury by itself: these are measurements, not diagnoses.
`;
}
