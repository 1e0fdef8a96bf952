import type { ArchiveClub, ArchiveOverview, ArchiveWorker } from '../../../shared/schemas/archive.ts';
import { nowUtc } from '../../store/store.ts';
import type { ArchiveClient } from '../connect.ts';
import { LIVING_WORKERS } from '../living.ts';
import { countBands, fingerprint, type NormsDocument } from '../../coach/norms/norms-document.ts';

const COUNTED = ['people', 'repetitions', 'contacts', 'recordings', 'conflicts', 'erasures'] as const;
const STORED = ['recording_chunks', 'raw_chunks'] as const;

/** What an archive holds, by club. Reads through all of it: some seconds where there are millions of contacts. As a keeper or the owner. */
export async function overviewOf(client: ArchiveClient): Promise<ArchiveOverview> {
  const { rows: programme } = await client.query<{ name: string; level: string; size_bytes: number }>(
    'SELECT name, level, pg_database_size(current_database())::float8 AS size_bytes FROM archive.programme',
  );
  const counts = COUNTED.map(
    (table) =>
      `LEFT JOIN (SELECT club_id, count(*)::int AS n FROM archive.${table} GROUP BY 1) ${table} USING (club_id)`,
  );
  const sums = STORED.map(
    (table) =>
      `LEFT JOIN (SELECT club_id, sum(octet_length(bytes))::float8 AS n FROM archive.${table} GROUP BY 1) ${table} USING (club_id)`,
  );
  const { rows: clubs } = await client.query<ArchiveClub>(
    `SELECT c.name, coalesce(m.machines, 0) AS machines, m.last_push_utc,
       ${COUNTED.map((table) => `coalesce(${table}.n, 0) AS ${table}`).join(', ')},
       ${STORED.map((table) => `coalesce(${table}.n, 0)`).join(' + ')} AS bytes
     FROM archive.clubs c
       LEFT JOIN (SELECT club_id, count(*)::int AS machines, max(last_push_utc) AS last_push_utc FROM archive.machines GROUP BY 1) m
         USING (club_id)
       ${[...counts, ...sums].join('\n       ')}
     ORDER BY c.name`,
  );
  return { ...programme[0], counted_utc: nowUtc(), clubs, norms: await publishedNorms(client) };
}

async function publishedNorms(client: ArchiveClient): Promise<ArchiveOverview['norms']> {
  const { rows } = await client.query<{ published_utc: string; document: string; public_key: string }>(
    'SELECT published_utc, document, public_key FROM archive.norms ORDER BY published_utc DESC LIMIT 1',
  );
  return (
    rows.map(({ published_utc, document, public_key }) => {
      const bands = countBands(JSON.parse(document) as NormsDocument);
      return { published_utc, fingerprint: fingerprint(public_key), bands };
    })[0] ?? null
  );
}

/** Who works now, and who did lately. */
export async function workersOf(client: ArchiveClient): Promise<ArchiveWorker[]> {
  const { rows } = await client.query<ArchiveWorker>(
    `SELECT worker_number, machine, version, last_seen_utc, worker_number IN (${LIVING_WORKERS}) AS lives
     FROM archive.workers ORDER BY lives DESC, last_seen_utc DESC LIMIT 50`,
  );
  return rows;
}
