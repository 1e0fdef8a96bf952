import PgBoss from 'pg-boss';
import { RUN_KINDS, type RunKind } from '../../shared/schemas/archive.ts';
import type { ArchiveClient } from './connect.ts';

/** The queue library's own schema, made once by whoever makes the archive. */
const SCHEMA = 'pgboss';

/** A job that failed by itself is tried this often; one whose worker was killed as well. */
export const RETRIES = 5;
/** Only for a worker that hangs without ending: one that ends is noticed at once. */
const LONGEST_HOURS = 6;
const JOBS_AT_ONCE = 1000;

/** One item of a run; of an export, repetition_id is the first of its people. Every kind of run has a queue of its own, of its name. */
export interface ArchiveJob {
  run_id: string;
  club_id: string;
  repetition_id: string;
}

/** A job with the identifier that it has in the queue. */
export type NumberedJob = ArchiveJob & { job_id: string };

/** A job as a worker takes it: its name is that of its queue. */
export type TakenJob = PgBoss.Job<ArchiveJob>;

/** The library on a connection of ours, so that its statements can be part of our transactions. */
function bossOn(client: ArchiveClient, migrate: boolean): PgBoss {
  const db = { executeSql: (text: string, values: unknown[]) => client.query(text, values) };
  const boss = new PgBoss({
    db,
    schema: SCHEMA,
    migrate,
    supervise: false,
    schedule: false,
  } as PgBoss.ConstructorOptions);
  boss.on('error', () => {});
  return boss;
}

/** Makes the queue, or brings it to the shape of this version's library; keepers may then use it. */
export async function makeQueue(client: ArchiveClient): Promise<void> {
  const boss = bossOn(client, true);
  await boss.start();
  for (const kind of RUN_KINDS) if ((await boss.getQueue(kind)) === null) await boss.createQueue(kind);
  await boss.stop({ graceful: false, close: false, wait: true });
  await client.query(
    `GRANT USAGE ON SCHEMA ${SCHEMA} TO cinderlane_keeper;
     GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA ${SCHEMA} TO cinderlane_keeper;
     GRANT EXECUTE ON ALL FUNCTIONS IN SCHEMA ${SCHEMA} TO cinderlane_keeper`,
  );
}

/** The queue, ready to give and take jobs on this connection. */
export async function openQueue(client: ArchiveClient): Promise<PgBoss> {
  const boss = bossOn(client, false);
  await boss.start();
  return boss;
}

/** Adds jobs under their identifiers. Inside a transaction of the connection they are there once it is committed. */
export async function addJobs(boss: PgBoss, kind: RunKind, jobs: NumberedJob[]): Promise<void> {
  for (let from = 0; from < jobs.length; from += JOBS_AT_ONCE) {
    await boss.insert(
      jobs.slice(from, from + JOBS_AT_ONCE).map(({ job_id, ...data }) => ({
        id: job_id,
        name: kind,
        data,
        retryLimit: RETRIES,
        expireInSeconds: LONGEST_HOURS * 3600,
      })),
    );
  }
}
