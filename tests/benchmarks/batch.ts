/**
 * How much faster many recordings are analysed again on two threads than on one: `npm run bench:batch [-- RECORDINGS]`.
 * The store holds one invented sprint many times over; both runs do the same work on the same file.
 */
import { availableParallelism, loadavg } from 'node:os';
import { Jobs } from '../../api/measuring/jobs/jobs.ts';
import { getReanalysis } from '../../api/store/reanalyses.ts';
import { listRepetitions } from '../../api/store/repetitions.ts';
import { storeManySprints } from './many-sprints.ts';
import { shareOfThreads, threadTimes } from './thread-times.ts';

const RECORDINGS = Number(process.argv[2] ?? 500);
/** Recordings a thread until its code is compiled: by the engine's own threads, which would take turns with those that are measured. */
const WARM_UP = 150;
const api = await storeManySprints(RECORDINGS);
const ids = listRepetitions(api.store).map((line) => line.repetition_id);

process.stdout.write(
  `${ids.length} recordings of two sensors, ${availableParallelism()} processors, load ${loadavg()[0].toFixed(1)}; ` +
    'milliseconds a recording: by the clock, and of processors\n',
);
const runs = [await run(1), await run(2)];
const speedup = runs[0].clock / runs[1].clock;
process.stdout.write(`two threads are ${speedup.toFixed(2)} times as fast as one, 1.8 wanted\n`);
tellModel(runs[1]);
if (speedup < 1.8) process.exitCode = 1;
await api.close();

/** Milliseconds a recording. */
interface Run {
  clock: number;
  /** Of the thread that alone writes; of those that analyse; of the engine's own, which compile and collect memory. */
  writer: number;
  analysis: number;
  engine: number;
}

async function run(threads: number): Promise<Run> {
  const jobs = new Jobs(api.store, threads);
  // Threads are up and their code is compiled before the clock starts.
  await jobs.reanalyses.ended(jobs.reanalyses.start(ids.slice(0, WARM_UP * threads), undefined));
  const before = threadTimes();
  const start = performance.now();
  const id = jobs.reanalyses.start(ids, undefined);
  await jobs.reanalyses.ended(id);
  const clock = (performance.now() - start) / ids.length;
  const { first, busy, rest } = shareOfThreads(before, threadTimes(), threads);
  const { failed, done } = getReanalysis(api.store, id);
  if (failed > 0 || done !== ids.length) throw new Error(`${failed} failed, ${done} done`);
  await jobs.close();
  const [writer, analysis, engine] = [first, busy, rest].map((ms) => ms / ids.length);
  process.stdout.write(
    `${threads} thread${threads > 1 ? 's' : ' '}  ${clock.toFixed(1)}; writing ${writer.toFixed(1)}, analysis ${analysis.toFixed(1)}, compiling and collecting ${engine.toFixed(1)}\n`,
  );
  return { clock, writer, analysis, engine };
}

/**
 * One thread writes, any number analyses, and the engine's own work is spread over all processors. With n processors a recording takes the
 * longer of the writer's time and an n-th of all.
 */
function tellModel({ writer, analysis, engine }: Run): void {
  const all = writer + analysis + engine;
  const with_ = (processors: number) => Math.max(writer, all / processors);
  const told = [1, 2, 4, 8, 16].map((n) => `${n}: ${(all / with_(n)).toFixed(1)}`).join(', ');
  process.stdout.write(
    `serial share ${((100 * writer) / all).toFixed(0)} %; recordings a second by processors as a multiple of one's: ${told}\n`,
  );
}
