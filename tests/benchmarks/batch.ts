/**
 * How much faster many recordings are analysed again on two threads than on one: `npm run bench:batch [-- RECORDINGS]`.
 * The store holds one invented sprint many times over; both runs do the same work on the same file.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { Jobs } from '../../api/measuring/jobs/jobs.ts';
import { getReanalysis } from '../../api/store/reanalyses.ts';
import { listRepetitions } from '../../api/store/repetitions.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';
import { openTestApi } from '../helpers/test-api.ts';

const RECORDINGS = Number(process.argv[2] ?? 500);
const folder = mkdtempSync(join(tmpdir(), 'cinderlane-batch-'));
const api = await openTestApi(folder);
const place = await api.athleteAndSession();
const { left, right } = sprintFiles();
await api.import({ ...place, mounting: 'foot', effort_percent: 100, course: '30m' }, { left, right });
multiply(RECORDINGS);
const ids = listRepetitions(api.store).map((line) => line.repetition_id);

process.stdout.write(
  `${ids.length} recordings of two sensors, ${availableParallelism()} processors, load ${loadavg()[0].toFixed(1)}\n`,
);
const times: number[] = [];
for (const threads of [1, 2]) {
  const seconds = await run(threads);
  times.push(seconds);
  process.stdout.write(
    `${threads} thread${threads > 1 ? 's' : ' '}  ${seconds.toFixed(1)} s, ${((1000 * seconds) / ids.length).toFixed(0)} ms a recording\n`,
  );
}
process.stdout.write(`two threads are ${(times[0] / times[1]).toFixed(2)} times as fast as one\n`);
await api.close();
rmSync(folder, { recursive: true, force: true });

async function run(threads: number): Promise<number> {
  const jobs = new Jobs(api.store, threads);
  // Threads are up and their code is compiled before the clock starts.
  await jobs.reanalyses.ended(jobs.reanalyses.start(ids.slice(0, 4 * threads), undefined));
  const start = performance.now();
  const id = jobs.reanalyses.start(ids, undefined);
  await jobs.reanalyses.ended(id);
  const seconds = (performance.now() - start) / 1000;
  const { failed, done } = getReanalysis(api.store, id);
  if (failed > 0 || done !== ids.length) throw new Error(`${failed} failed, ${done} done`);
  await jobs.close();
  return seconds;
}

/** Copies the first repetition with its recordings until there are `count` of them. */
function multiply(count: number): void {
  const { database } = api.store;
  const columnsOf = (table: string, key: string) =>
    (database.prepare('SELECT name FROM pragma_table_info(?)').all(table) as { name: string }[])
      .map(({ name }) => name)
      .filter((name) => name !== key && name !== 'uuid');
  const copy = (table: string, key: string, where: string) => {
    const columns = columnsOf(table, key).join(', ');
    return database.prepare(`INSERT INTO ${table} (${columns}) SELECT ${columns} FROM ${table} WHERE ${where}`);
  };
  const repetition = copy('repetitions', 'repetition_id', 'repetition_id = 1');
  const recording = copy('recordings', 'recording_id', 'recording_id = ?');
  const chunks = database.prepare(
    `INSERT INTO recording_chunks SELECT ?, channel, sequence, first_sample, samples, bytes FROM recording_chunks WHERE recording_id = ?`,
  );
  const link = database.prepare('INSERT INTO repetition_recordings VALUES (?, ?)');
  api.store.transaction(() => {
    for (let i = 1; i < count; i++) {
      const repetitionId = repetition.run().lastInsertRowid;
      for (const source of [1, 2]) {
        const recordingId = recording.run(source).lastInsertRowid;
        chunks.run(recordingId, source);
        link.run(repetitionId, recordingId);
      }
    }
  });
}
