import { hostname } from 'node:os';
import { setTimeout } from 'node:timers/promises';
import { fault } from '../../../shared/fault.ts';
import { RUN_KINDS, type RunKind } from '../../../shared/schemas/archive.ts';
import { VERSION } from '../../version.ts';
import { type ArchiveClient, inTransaction } from '../connect.ts';
import { checkSchema } from '../upgrade-schema.ts';
import { beginLife, endLife, LIVING_WORKERS } from '../living.ts';
import { type ArchiveJob, openQueue, RETRIES, type TakenJob } from '../queue.ts';
import type { DoJob, JobItem, JobOutcome, Run } from './job.ts';
import { compareArchived } from './do-agreement.ts';
import { exportPart } from './do-export.ts';
import { reanalyseArchived } from './do-reanalysis.ts';

const LOOK_MS = 2000;
/** So that whoever has waited looks everywhere. */
const EMPTY_MS = LOOK_MS / 2;

const KINDS: Record<RunKind, DoJob> = { reanalysis: reanalyseArchived, agreement: compareArchived, export: exportPart };

export interface WorkerOptions {
  /** Ends when there is nothing left to do, here or with another worker. */
  until_done: boolean;
  signal: AbortSignal;
  tell: (line: string) => void;
}

type Boss = Awaited<ReturnType<typeof openQueue>>;

/**
 * Works on jobs of the archive, one at a time, until it is stopped: any number of workers on any machines. A job is done again where its
 * worker ended in the middle; which ones live is known from locks that their connections hold.
 * @returns how many jobs were done and how many failed
 */
export async function work(client: ArchiveClient, options: WorkerOptions): Promise<{ done: number; failed: number }> {
  await checkSchema(client);
  const boss = await openQueue(client);
  const { rows } = await client.query<{ number: number }>("SELECT nextval('archive.worker_numbers')::int AS number");
  const [{ number }] = rows;
  await beginLife(client, number);
  await client.query('INSERT INTO archive.workers (worker_number, machine, version) VALUES ($1, $2, $3)', [
    number,
    hostname(),
    VERSION,
  ]);
  options.tell(`worker ${number}`);
  const count = { done: 0, failed: 0 };
  const nextJob = takeTurns(boss);
  while (!options.signal.aborted) {
    const job = await nextJob();
    if (job) {
      const end = await one(client, boss, number, job);
      count[end] += 1;
      continue;
    }
    const given = await giveBackOfDead(client, boss);
    if (given > 0) options.tell(`${given} jobs of workers that ended are done again`);
    else if (options.until_done && (await nothingLeft(client))) break;
    else await pause(options.signal);
  }
  await endLife(client, number);
  return count;
}

/**
 * The kinds take turns: a long run of one does not hold up the others. One that has nothing is asked again only after a while, so that
 * the server of the archive is not asked three times for every job.
 */
function takeTurns(boss: Boss) {
  const empty_ms = new Map<RunKind, number>();
  let first = 0;
  return async () => {
    first += 1;
    for (let i = 0; i < RUN_KINDS.length; i++) {
      const kind = RUN_KINDS[(first + i) % RUN_KINDS.length];
      if (performance.now() - (empty_ms.get(kind) ?? Number.NEGATIVE_INFINITY) < EMPTY_MS) continue;
      const [job] = await boss.fetch<ArchiveJob>(kind, { batchSize: 1 });
      if (job) return job;
      empty_ms.set(kind, performance.now());
    }
    return null;
  };
}

async function one(client: ArchiveClient, boss: Boss, worker: number, taken: TakenJob): Promise<'done' | 'failed'> {
  const job = taken.data;
  await client.query('UPDATE archive.workers SET last_seen_utc = clock_timestamp() WHERE worker_number = $1', [worker]);
  const { rows } = await client.query<Run & Pick<JobItem, 'people' | 'given'>>(
    `UPDATE archive.run_items i SET state = 'working', worker_number = $4, begun_utc = clock_timestamp() FROM archive.runs r
       WHERE i.run_id = $1 AND i.club_id = $2 AND i.repetition_id = $3 AND i.state IN ('waiting', 'working') AND r.run_id = i.run_id
       RETURNING r.kind, r.settings::json AS settings, coalesce(r.wanted, '{}') AS wanted, i.people, i.given`,
    [job.run_id, job.club_id, job.repetition_id, worker],
  );
  const [begun] = rows;
  if (begun === undefined) {
    // What the job was about has ended otherwise, or left the archive.
    await boss.complete(taken.name, taken.id);
    return 'done';
  }
  const { people, given, ...run } = begun;
  try {
    const outcome = await KINDS[run.kind](client, { ...job, people, given }, run);
    return await settle(client, boss, taken, outcome);
  } catch (error) {
    return giveUp(client, boss, taken, error);
  }
}

/** Result, state of the item and end of the job are one transaction: there is no moment at which one is without the others. */
function settle(
  client: ArchiveClient,
  boss: Boss,
  { id, name, data: job }: TakenJob,
  outcome: JobOutcome,
): Promise<'done' | 'failed'> {
  const begun = performance.now();
  return inTransaction(client, async () => {
    // Against an erasure of the same moment, which takes this row for itself.
    await client.query('SELECT 1 FROM archive.clubs WHERE club_id = $1 FOR SHARE', [job.club_id]);
    const stored = outcome.fault === null ? await outcome.store(client) : {};
    const state = outcome.fault === null ? 'done' : 'failed';
    await client.query(
      `UPDATE archive.run_items SET state = $4, after_analysis_id = coalesce($5, after_analysis_id), fault = $6,
         finished_utc = clock_timestamp(), read_s = $7, analysed_s = $8, stored_s = $9, read_bytes = $10, outcome = $11
       WHERE run_id = $1 AND club_id = $2 AND repetition_id = $3 AND state <> 'done'`,
      [
        ...[job.run_id, job.club_id, job.repetition_id, state, stored.analysis_id ?? null],
        ...[json(outcome.fault), outcome.read_s, outcome.analysed_s, (performance.now() - begun) / 1000],
        ...[outcome.read_bytes, json(stored.outcome ?? null)],
      ],
    );
    await boss.complete(name, id);
    return state;
  });
}

/** What nobody foresaw: tried again some times, by whoever comes, then told as a failure. */
async function giveUp(
  client: ArchiveClient,
  boss: Boss,
  { id, name, data: job }: TakenJob,
  error: unknown,
): Promise<'failed'> {
  const why = error instanceof Error ? error.message : String(error);
  const known = await boss.getJobById(name, id);
  const last = (known?.retryCount ?? RETRIES) >= RETRIES;
  const told = fault('INTERNAL.reanalysis', { why }, { repetition_id: job.repetition_id });
  await client.query(
    `UPDATE archive.run_items SET state = $4, fault = $5 WHERE run_id = $1 AND club_id = $2 AND repetition_id = $3 AND state <> 'done'`,
    [job.run_id, job.club_id, job.repetition_id, last ? 'failed' : 'waiting', JSON.stringify(told)],
  );
  await boss.fail(name, id, { why });
  return 'failed';
}

/** Jobs whose worker's lock is free: it was killed, its machine went off, its network broke. */
async function giveBackOfDead(client: ArchiveClient, boss: Boss): Promise<number> {
  const { rows } = await client.query<{ job_id: string; kind: RunKind }>(
    `UPDATE archive.run_items i SET state = 'waiting', worker_number = NULL FROM archive.runs r
       WHERE i.state = 'working' AND i.worker_number NOT IN (${LIVING_WORKERS}) AND r.run_id = i.run_id RETURNING i.job_id, r.kind`,
  );
  for (const { job_id, kind } of rows) await boss.fail(kind, job_id, { why: 'its worker ended' });
  return rows.length + (await giveBackUnbegun(client, boss));
}

/** Jobs that a worker took and ended before it said so. */
async function giveBackUnbegun(client: ArchiveClient, boss: Boss): Promise<number> {
  const { rows } = await client.query<{ id: string; name: string }>(
    `SELECT j.id, j.name FROM pgboss.job j JOIN archive.run_items i ON i.job_id = j.id
       WHERE j.name = ANY($1) AND j.state = 'active' AND i.state = 'waiting' AND j.started_on < now() - interval '30 seconds'`,
    [[...RUN_KINDS]],
  );
  for (const { id, name } of rows) await boss.fail(name, id, { why: 'its worker ended' });
  return rows.length;
}

async function nothingLeft(client: ArchiveClient): Promise<boolean> {
  const { rows } = await client.query<{ n: number }>(
    "SELECT count(*)::int AS n FROM archive.run_items WHERE state IN ('waiting', 'working')",
  );
  return rows[0].n === 0;
}

/** Ends early when the worker is stopped. */
async function pause(signal: AbortSignal): Promise<void> {
  await setTimeout(LOOK_MS, undefined, { signal }).catch(() => {});
}

const json = (value: unknown) => (value === null ? null : JSON.stringify(value));
