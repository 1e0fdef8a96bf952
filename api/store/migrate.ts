import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type Database from 'better-sqlite3';
import { FaultError, fault } from '../../shared/fault.ts';
import { hasAllFieldColumns } from './field-columns.ts';
import { addKeyedPseudonyms } from './keyed-pseudonyms.ts';
import { addUuidFunction } from './uuid.ts';

const MIGRATIONS_FOLDER = fileURLToPath(new URL('./migrations/', import.meta.url));

/**
 * Brings a database to the newest shape: runs every file of `migrations/` (`NNN-what.sql`) that has not run yet, in
 * the order of their names, each in a transaction of its own with its entry in `migrations`.
 * @throws FaultError DATABASE_NEWER when the database knows a migration that this version does not have
 * A file that has been released is never edited; a change of shape is a new file.
 */
export function migrate(database: Database.Database, folder = MIGRATIONS_FOLDER): string[] {
  // Not for migrations alone: triggers call it whenever a row is made.
  addUuidFunction(database);
  database.exec('CREATE TABLE IF NOT EXISTS migrations (name TEXT PRIMARY KEY, applied_utc TEXT NOT NULL) STRICT');
  const applied = new Set(
    database
      .prepare<[], { name: string }>('SELECT name FROM migrations')
      .all()
      .map((row) => row.name),
  );
  const known = migrationFiles(folder);
  const unknown = [...applied].find((name) => !known.includes(name));
  if (unknown !== undefined) throw newerDatabase(unknown);
  const waiting = known.filter((name) => !applied.has(name));
  const record = database.prepare('INSERT INTO migrations (name, applied_utc) VALUES (?, ?)');
  if (waiting.length > 0) addKeyedPseudonyms(database);
  for (const name of waiting) {
    const sql = readFileSync(`${folder}/${name}`, 'utf8');
    database
      .transaction(() => {
        database.exec(sql);
        record.run(name, new Date().toISOString());
      })
      .immediate();
  }
  return waiting;
}

/** Whether a database has the shape of this version; asked without changing it. */
export function isNewest(database: Database.Database): boolean {
  const applied = database.prepare<[], { name: string }>('SELECT name FROM migrations').all();
  return (
    migrationFiles(MIGRATIONS_FOLDER).every((name) => applied.some((row) => row.name === name)) &&
    hasAllFieldColumns(database)
  );
}

/** Names of the numbered files of a folder, in the order in which they are run. */
export function migrationFiles(folder: string): string[] {
  return readdirSync(folder)
    .filter((name) => /^\d{3}-[a-z0-9-]+\.sql$/.test(name))
    .sort();
}

function newerDatabase(migration: string): FaultError {
  return new FaultError(fault('DATABASE_NEWER', { migration }, { migration }));
}
