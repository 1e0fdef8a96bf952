/**
 * npm run bench:norms [-- MILLIONS]: time of norms over an archive's Parquet files, five million contacts without a number. A small archive is
 * written by the real way, then copied by DuckDB under other clubs' names. Needs $CINDERLANE_TOOLS with DuckDB.
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { openDuck } from '../../api/archive/research/duckdb.ts';
import { normsOf, openArchiveFiles } from '../../api/archive/research/norms.ts';
import { writeArchiveParquet } from '../../api/archive/research/write-parquet.ts';
import { sendProgramme } from '../proofs/archive/sent-programme.ts';

const millions = Number(process.argv[2] ?? 5);
const { owner, folder } = await sendProgramme('pseudonyms', {
  athletes: 30,
  sessions: 42,
  repetitions: 2,
  recorded: 0,
});
const files = join(folder, 'files');
const written = performance.now();
const { contacts } = await writeArchiveParquet(owner, files);
console.log(`${contacts} contacts written as Parquet in ${((performance.now() - written) / 1000).toFixed(1)} s`);
await owner.end();

const duck = await openDuck();
const copies = Math.ceil((millions * 1e6) / contacts);
for (let i = 1; i < copies; i++) {
  for (const table of ['repetitions', 'contacts']) {
    for (const year of [2025, 2026]) {
      const to = join(files, table, `club=copy-${i}`, `year=${year}`);
      mkdirSync(to, { recursive: true });
      await duck.rows(
        `COPY (SELECT * EXCLUDE (club, year) FROM read_parquet('${files}/${table}/*/year=${year}/part.parquet', hive_partitioning = true)
           WHERE club NOT LIKE 'copy-%') TO '${to}/part.parquet' (FORMAT parquet)`,
      );
    }
  }
}
await openArchiveFiles(duck, files);
const [{ n }] = await duck.rows('SELECT count(*)::DOUBLE AS n FROM contacts');
for (let i = 0; i < 3; i++) {
  const begun = performance.now();
  const cells = await normsOf(duck, 'contact_time_ms');
  console.log(
    `norms over ${n} contacts: ${cells.length} cells in ${((performance.now() - begun) / 1000).toFixed(2)} s`,
  );
}
duck.close();
process.exit(0);
