import type { ArchiveClient } from './connect.ts';

/** Space of the advisory locks that say which workers live. */
const LIVING = 0x776f726b;

/** Numbers of the workers whose connection lives: the server gives a lock back whatever way its connection ends. */
export const LIVING_WORKERS = `SELECT objid::int FROM pg_locks WHERE locktype = 'advisory' AND classid = ${LIVING} AND granted
  AND database = (SELECT oid FROM pg_database WHERE datname = current_database())`;

/** A worker lives from here on, until `endLife` or the end of its connection. */
export async function beginLife(client: ArchiveClient, worker_number: number): Promise<void> {
  await client.query('SELECT pg_advisory_lock($1, $2)', [LIVING, worker_number]);
}

export async function endLife(client: ArchiveClient, worker_number: number): Promise<void> {
  await client.query('SELECT pg_advisory_unlock($1, $2)', [LIVING, worker_number]);
}
