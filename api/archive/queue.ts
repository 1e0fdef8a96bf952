import PgBoss from 'pg-boss';
import type { ArchiveClient } from './connect.ts';

/** The queue library's own schema, made once by whoever makes the archive. */
const SCHEMA = 'pgboss';
export const QUEUE = 'reanalysis';

/** A job that failed by itself is tried this often; one whose worker was killed as well. */
export const RETRIES = 5;
/** Only for a worker that hangs without ending: one that ends is noticed at once. */
const LONGEST_HOURS = 6;
const JOBS_AT_ONCE = 1000;

export interface ReanalysisJob {
  run_id: string;
  club_id: string;
  repetition_id: string;
}

/** A job with the identifier that it has in the queue. */
export type NumberedJob = ReanalysisJob & { job_id: string };

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
  if ((await boss.getQueue(QUEUE)) === null) await boss.createQueue(QUEUE);
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
export async function addJobs(boss: PgBoss, jobs: NumberedJob[]): Promise<void> {
  for (let from = 0; from < jobs.length; from += JOBS_AT_ONCE) {
    await boss.insert(
      jobs.slice(from, from + JOBS_AT_ONCE).map(({ job_id, ...data }) => ({
        id: job_id,
        name: QUEUE,
        data,
        retryLimit: RETRIES,
        expireInSeconds: LONGEST_HOURS * 3600,
      })),
    );
  }
}
