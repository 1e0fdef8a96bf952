/**
 * npm run bench:workers [-- RECORDINGS WORKERS...]: a re-analysis of an archive by 1, 2 and 4 workers on this machine, what a job's time goes
 * into, and up to how many workers a model of these shares holds. Without numbers 500 recordings.
 */
import { spawn } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { sharesOf } from '../../api/archive/work/run-report.ts';
import { startRun } from '../../api/archive/work/start-runs.ts';
import { sendProgramme } from '../proofs/archive/sent-programme.ts';

const recordings = Number(process.argv[2] ?? 500);
const counts = process.argv.length > 3 ? process.argv.slice(3).map(Number) : [1, 2, 4];
const { server, owner } = await sendProgramme('named', {
  athletes: 4,
  sessions: 1,
  repetitions: 1,
  recorded: recordings,
});
console.log(`${recordings} repetitions of two sensors, ${availableParallelism()} processors`);

let alone = 0;
for (const count of counts) {
  const { run_id } = await startRun(owner, {}, undefined);
  const before = server.processorSeconds();
  const workers = Array.from({ length: count }, () =>
    spawn(
      process.execPath,
      ['api/command-line/cinderlane.mjs', 'work', '--until-done', '--archive', server.address('programme')],
      {
        stdio: ['ignore', 'ignore', 'inherit'],
      },
    ),
  );
  await Promise.all(workers.map((worker) => new Promise((resolve) => worker.once('exit', resolve))));
  const shares = await sharesOf(owner, run_id);
  const { rows } = await owner.query<{ span_s: number }>(
    `SELECT extract(epoch FROM max(finished_utc) - min(begun_utc))::float8 AS span_s FROM archive.run_items WHERE run_id = $1`,
    [run_id],
  );
  const done = shares.reduce((sum, one) => sum + one.done, 0);
  const rate = done / rows[0].span_s;
  if (count === counts[0]) alone = rate / count;
  const mean = (of: 'read_s' | 'analysed_s' | 'stored_s' | 'read_bytes') =>
    shares.reduce((sum, one) => sum + one[of], 0) / done;
  console.log(
    `${String(count).padStart(3)} workers: ${rate.toFixed(2)} a second (${(rate / alone).toFixed(2)} times one); a job: ` +
      `${(1000 * mean('read_s')).toFixed(0)} ms reading ${(mean('read_bytes') / 1e3).toFixed(0)} kB, ${(1000 * mean('analysed_s')).toFixed(0)} ms analysis, ${(1000 * mean('stored_s')).toFixed(0)} ms storing`,
  );
  if (count === counts[0])
    model(
      mean('read_s') + mean('stored_s'),
      mean('analysed_s'),
      mean('read_bytes'),
      (server.processorSeconds() - before) / done,
    );
}
await owner.end();
process.exit(0);

/**
 * Up to how many workers, each on a processor of its own elsewhere, the archive's server keeps up: its processors' time a job is measured, and the
 * network carries the samples. Below the limit the rate grows with the workers; asymptotic bounds of a closed network of one job each
 * (Denning and Buzen 1978, doi 10.1145/356733.356735).
 */
function model(waited_s: number, analysed_s: number, bytes: number, server_s: number): void {
  const cycle = waited_s + analysed_s;
  const network_s = (8 * bytes) / 1e9;
  const cores = availableParallelism();
  console.log(
    `     a job: ${(1000 * cycle).toFixed(0)} ms alone, of the server's processors ${(1000 * server_s).toFixed(1)} ms, of a network of 1 Gbit/s ${(1000 * network_s).toFixed(1)} ms`,
  );
  const limit = Math.min(cores / server_s, 1 / network_s);
  for (const n of [10, 20, 50, 100])
    console.log(
      `     model, ${String(n).padStart(3)} workers elsewhere: at most ${Math.min(n / cycle, limit).toFixed(1)} a second`,
    );
  console.log(
    `     it saturates at ${(limit * cycle).toFixed(0)} workers, by ${cores / server_s < 1 / network_s ? `the server's ${cores} processors` : 'the network'}`,
  );
}
