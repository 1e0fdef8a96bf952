import { copyFileSync, existsSync, linkSync, mkdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { FaultError, fault } from '../../shared/fault.ts';
import { lockFolder } from '../server/folder-lock.ts';
import { DATABASE_NAME } from '../server/running-server.ts';
import { Store } from '../store/store.ts';
import { rememberIds } from '../store/fresh-id.ts';
import { checkDatabase, settle } from './make-backup.ts';
import { unpackFiles } from '../store/packed-files.ts';
import { isSealed, openSealedFile } from './sealed-file.ts';

/** What must outlive a restoration: what was erased or revoked since the copy was made, and identifiers given since. */
interface Since {
  erasures: { athlete_id: number; asked_utc: string; created_utc: string; uuid: string | null }[];
  revoked: { token_sha256: Uint8Array; revoked_utc: string }[];
  last_ids: { table_name: string; last_id: number }[];
}

/**
 * Puts a backup in the place of a data folder's database. The database that was there is kept beside it under a name that tells when;
 * the change itself is one step of the file system, so that a kill leaves either the one or the other. People who were erased after
 * the copy was made are erased again when the server starts, devices revoked since stay revoked, and identifiers are not given twice.
 * Packet logs that are in the backup and not in the folder come back to their place.
 * @returns where the former database lies; null where there was none
 * @throws FaultError FILE_NOT_FOUND, SERVER_RUNNING, RESTORE_FAILED, DATABASE_NEWER, DATABASE_UNREADABLE
 */
export function restoreBackup(
  copy: string,
  folder: string,
  passphrase: string | null,
  { now = new Date(), unpack = unpackFiles }: { now?: Date; unpack?: typeof unpackFiles } = {},
): string | null {
  if (!existsSync(copy)) throw new FaultError(fault('FILE_NOT_FOUND.to_restore', { file: copy }, { file: copy }));
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const giveBack = lockFolder(folder);
  if (giveBack === null) throw new FaultError(fault('SERVER_RUNNING.starting', { folder }, { folder }));
  const usual = process.umask(0o077);
  const arriving = join(folder, 'restore.part');
  try {
    open(copy, arriving, passphrase);
    const database = join(folder, DATABASE_NAME);
    const former = existsSync(database) ? database : null;
    const since = former === null ? null : sinceThe(former);
    prepare(arriving, since);
    settle(arriving);
    const kept = former === null ? null : keepFormer(former, now);
    renameSync(arriving, database);
    unpackBeside(database, folder, unpack);
    return kept;
  } finally {
    for (const ending of ['', '-wal', '-shm']) rmSync(arriving + ending, { force: true });
    process.umask(usual);
    giveBack();
  }
}

/** Killed here, the next start of the server does it. */
function unpackBeside(database: string, folder: string, unpack: typeof unpackFiles): void {
  const store = Store.open(database);
  try {
    unpack(store.database, folder);
  } finally {
    store.close();
  }
}

function open(copy: string, to: string, passphrase: string | null): void {
  try {
    if (!isSealed(copy)) copyFileSync(copy, to);
    else if (passphrase === null) throw new Error('it is sealed and no passphrase was given');
    else openSealedFile(copy, to, passphrase);
    checkDatabase(to);
  } catch (error) {
    const text = error instanceof Error ? error.message : String(error);
    const why = /unable to authenticate/i.test(text) ? 'the passphrase is another, or the file was changed' : text;
    throw new FaultError(fault('RESTORE_FAILED', { file: copy, why }, { file: copy }));
  }
}

/** What the present database knows and the copy does not; an unreadable one knows nothing. */
function sinceThe(database: string): Since | null {
  let store: Store;
  try {
    store = Store.open(database);
  } catch (error) {
    if (error instanceof FaultError && error.code === 'DATABASE_UNREADABLE') return null;
    throw error;
  }
  try {
    rememberIds(store);
    const all = <Row>(sql: string) => store.prepare(sql).all() as Row[];
    return {
      erasures: all('SELECT athlete_id, asked_utc, created_utc, uuid FROM erasures WHERE created_utc IS NOT NULL'),
      revoked: all('SELECT token_sha256, revoked_utc FROM devices WHERE revoked_utc IS NOT NULL'),
      last_ids: all('SELECT table_name, last_id FROM last_ids'),
    };
  } finally {
    // Everything goes from the log into the file, which is about to be kept by itself.
    store.database.pragma('wal_checkpoint(TRUNCATE)');
    store.close();
  }
}

/** Brings the copy to the newest shape and writes into it what must not be undone. */
function prepare(file: string, since: Since | null): void {
  const store = Store.open(file);
  try {
    store.transaction(() => {
      for (const { athlete_id, asked_utc, created_utc, uuid } of since?.erasures ?? []) {
        // The same number in another club's database is another person: the moment the row was made tells them apart.
        store
          .prepare(
            `INSERT INTO erasures (athlete_id, asked_utc, created_utc, uuid)
               SELECT athlete_id, @asked_utc, @created_utc, @uuid FROM athletes WHERE athlete_id = @athlete_id AND created_utc = @created_utc
               ON CONFLICT DO UPDATE SET done_utc = NULL`,
          )
          .run({ athlete_id, asked_utc, created_utc, uuid });
      }
      for (const { token_sha256, revoked_utc } of since?.revoked ?? []) {
        store
          .prepare('UPDATE devices SET revoked_utc = ? WHERE token_sha256 = ? AND revoked_utc IS NULL')
          .run(revoked_utc, token_sha256);
      }
      for (const { table_name, last_id } of since?.last_ids ?? []) {
        store
          .prepare(
            `INSERT INTO last_ids (table_name, last_id) VALUES (?, ?)
               ON CONFLICT DO UPDATE SET last_id = max(last_id, excluded.last_id)`,
          )
          .run(table_name, last_id);
      }
    });
    store.database.pragma('wal_checkpoint(TRUNCATE)');
    store.database.pragma('journal_mode = DELETE');
  } finally {
    store.close();
  }
}

function keepFormer(database: string, now: Date): string {
  const kept = database.replace(/\.sqlite$/, `-before-${now.toISOString().slice(0, 19).replaceAll(':', '-')}.sqlite`);
  try {
    linkSync(database, kept);
  } catch {
    // A file system without links.
    copyFileSync(database, kept);
  }
  for (const ending of ['-wal', '-shm']) {
    if (!existsSync(database + ending)) continue;
    // Left by a database that could not be opened: kept with it, so that it never meets the new one.
    renameSync(database + ending, kept + ending);
  }
  return kept;
}
