import type { ArchiveClient } from './connect.ts';
import { LIVING_WORKERS } from './living.ts';

/** One club as whoever keeps the archive sees it. */
export interface ClubLine {
  name: string;
  machines: number;
  last_push_utc: string | null;
  people: number;
  repetitions: number;
  contacts: number;
  recordings: number;
  /** Bytes of samples and raw files, as they are stored. */
  bytes: number;
  conflicts: number;
  erasures: number;
}

export interface WorkerLine {
  worker_number: number;
  machine: string;
  version: string;
  last_seen_utc: string;
  lives: boolean;
}

/** What whoever keeps an archive asks first: who sent when and how much, and who works. */
export interface Overview {
  name: string;
  level: string;
  size_bytes: number;
  clubs: ClubLine[];
  workers: WorkerLine[];
}

/** As a keeper or the owner of the database. */
export async function overviewOf(client: ArchiveClient): Promise<Overview> {
  const { rows: programme } = await client.query<{ name: string; level: string; size_bytes: number }>(
    'SELECT name, level, pg_database_size(current_database())::float8 AS size_bytes FROM archive.programme',
  );
  const { rows: clubs } = await client.query<ClubLine>(
    `SELECT c.name, (SELECT count(*)::int FROM archive.machines m WHERE m.club_id = c.club_id) AS machines,
       (SELECT max(last_push_utc) FROM archive.machines m WHERE m.club_id = c.club_id) AS last_push_utc,
       (SELECT count(*)::int FROM archive.people p WHERE p.club_id = c.club_id) AS people,
       (SELECT count(*)::int FROM archive.repetitions r WHERE r.club_id = c.club_id) AS repetitions,
       (SELECT count(*)::int FROM archive.contacts k WHERE k.club_id = c.club_id) AS contacts,
       (SELECT count(*)::int FROM archive.recordings r WHERE r.club_id = c.club_id) AS recordings,
       (coalesce((SELECT sum(octet_length(bytes)) FROM archive.recording_chunks s WHERE s.club_id = c.club_id), 0)
         + coalesce((SELECT sum(octet_length(bytes)) FROM archive.raw_chunks s WHERE s.club_id = c.club_id), 0))::float8 AS bytes,
       (SELECT count(*)::int FROM archive.conflicts f WHERE f.club_id = c.club_id) AS conflicts,
       (SELECT count(*)::int FROM archive.erasures e WHERE e.club_id = c.club_id) AS erasures
     FROM archive.clubs c ORDER BY c.name`,
  );
  const { rows: workers } = await client.query<WorkerLine>(
    `SELECT worker_number, machine, version, last_seen_utc, worker_number IN (${LIVING_WORKERS}) AS lives
     FROM archive.workers ORDER BY lives DESC, last_seen_utc DESC LIMIT 50`,
  );
  return { ...programme[0], clubs, workers };
}
