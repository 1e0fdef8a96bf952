import { join } from 'node:path';
import Database from 'better-sqlite3';
import { storeFault } from '../store/store-fault.ts';

/**
 * Holds a data folder for one server: an exclusive transaction on a database of its own, which the system gives back whatever way the
 * program ends. Weighed: a file with a process number in it, which a killed program leaves behind and another may bear by chance.
 * @returns gives the folder back; null while another process holds it
 * @throws FaultError DISK_FULL, FOLDER_NOT_WRITABLE when the folder cannot be written
 */
export function lockFolder(folder: string): (() => void) | null {
  const file = join(folder, 'lock.sqlite');
  let database: Database.Database | null = null;
  const usual = process.umask(0o077);
  try {
    database = new Database(file, { timeout: 0 });
    database.pragma('journal_mode = DELETE');
    database.exec('BEGIN EXCLUSIVE');
    const held = database;
    return () => held.close();
  } catch (error) {
    database?.close();
    if (String((error as { code?: string }).code).startsWith('SQLITE_BUSY')) return null;
    throw storeFault(error, file) ?? error;
  } finally {
    process.umask(usual);
  }
}
