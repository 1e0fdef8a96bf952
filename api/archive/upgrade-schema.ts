import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { FaultError, fault } from '../../shared/fault.ts';
import { CONTACT_COLUMNS } from '../../shared/fields.ts';
import { migrationFiles } from '../store/migrate.ts';
import { type ArchiveClient, inTransaction } from './connect.ts';

const FOLDER = fileURLToPath(new URL('./schema/', import.meta.url));
/** One upgrade at a time, whoever begins it. */
const LOCK = 0x63696e64;
/** Waiting for a table that is in use would hold up everybody who comes after: rather tried again. */
const LOCK_WAIT_MS = 2000;
const TRIES = 30;

/**
 * Brings an archive to the newest shape: runs every file of `schema/` that has not run yet, each in a transaction, and adds columns for
 * quantities that were defined since. May run while clubs push and workers work: it never waits long for a table.
 * @returns the files that were run
 * @throws FaultError ARCHIVE_NEWER
 */
export async function upgradeSchema(client: ArchiveClient, folder = FOLDER): Promise<string[]> {
  await client.query('SELECT pg_advisory_lock($1)', [LOCK]);
  try {
    await client.query(
      `CREATE SCHEMA IF NOT EXISTS archive;
       CREATE TABLE IF NOT EXISTS archive.migrations (name text PRIMARY KEY, applied_utc timestamptz NOT NULL DEFAULT now())`,
    );
    const known = migrationFiles(folder);
    const applied = await appliedFiles(client);
    refuseNewer(applied, known);
    const waiting = known.filter((name) => !applied.includes(name));
    for (const name of waiting) {
      const sql = readFileSync(`${folder}/${name}`, 'utf8');
      await quietly(client, async () => {
        await client.query(sql);
        await client.query('INSERT INTO archive.migrations (name) VALUES ($1)', [name]);
      });
    }
    await addContactColumns(client);
    return waiting;
  } finally {
    await client.query('SELECT pg_advisory_unlock($1)', [LOCK]);
  }
}

/** @throws FaultError ARCHIVE_NOT_MADE, ARCHIVE_NEWER, ARCHIVE_OLDER: an archive of another shape is not touched */
export async function checkSchema(client: ArchiveClient): Promise<void> {
  const known = migrationFiles(FOLDER);
  const applied = await appliedFiles(client);
  refuseNewer(applied, known);
  const { host } = client;
  if (known.some((name) => !applied.includes(name))) throw new FaultError(fault('ARCHIVE_OLDER', { host }, { host }));
}

async function appliedFiles(client: ArchiveClient): Promise<string[]> {
  const { rows } = await client.query<{ name: string }>('SELECT name FROM archive.migrations');
  return rows.map(({ name }) => name);
}

function refuseNewer(applied: string[], known: string[]): void {
  const migration = applied.find((name) => !known.includes(name));
  if (migration !== undefined) throw new FaultError(fault('ARCHIVE_NEWER', { migration }, { migration }));
}

/** Runs a change of shape in a transaction that gives way to those who work, and comes again. */
async function quietly(client: ArchiveClient, work: () => Promise<void>): Promise<void> {
  for (let tries = 1; ; tries++) {
    try {
      await inTransaction(client, async () => {
        await client.query(`SET LOCAL lock_timeout = ${LOCK_WAIT_MS}`);
        await work();
      });
      return;
    } catch (error) {
      // 55P03: the lock was not to be had.
      if ((error as { code?: string }).code !== '55P03' || tries === TRIES) throw error;
    }
  }
}

async function addContactColumns(client: ArchiveClient): Promise<void> {
  const there = new Set(await contactColumns(client));
  const missing = CONTACT_COLUMNS.filter((name) => !there.has(name) && name !== 'analysis_id');
  if (missing.length === 0) return;
  const added = missing.map((name) => `ADD COLUMN IF NOT EXISTS ${name} double precision`).join(', ');
  await quietly(client, async () => {
    await client.query(`ALTER TABLE archive.contacts ${added}`);
  });
}

/** Columns of the archive's contacts. */
export async function contactColumns(client: ArchiveClient): Promise<string[]> {
  const { rows } = await client.query<{ name: string }>(
    `SELECT attname AS name FROM pg_attribute WHERE attrelid = 'archive.contacts'::regclass AND attnum > 0 AND NOT attisdropped`,
  );
  return rows.map(({ name }) => name);
}
