import { existsSync, rmSync } from 'node:fs';
import { dirname } from 'node:path';
import { openForLooking } from './open-for-looking.ts';
import type { OpenedStore, OpenOptions } from './opened-store.ts';
import { readOnlyReason, type ReadOnlyReason } from './read-only.ts';
import { storeFault } from './store-fault.ts';
import { Store } from './store.ts';

/**
 * Opens a server's database. Where it cannot be written but can be read, it is opened for reading only, and says why
 * (`Store.read_only`): a coach with a full disk still sees the season.
 * @param blocked what is known already to stand against writing
 * @throws FaultError DATABASE_UNREADABLE where it cannot be read either; DISK_FULL, FOLDER_NOT_WRITABLE where there is none yet
 */
export function openStore(file: string, blocked: ReadOnlyReason | null = null, options: OpenOptions = {}): OpenedStore {
  const was_there = existsSync(file);
  if (blocked === null) {
    try {
      const store = openForWriting(file, options);
      return { store, close: () => store.close() };
    } catch (error) {
      const why = readOnlyReason(error, dirname(file));
      if (!was_there) removeHalfMade(file);
      if (!was_there || why === null) throw error;
      return openForLooking(file, why, options);
    }
  }
  return openForLooking(file, blocked, options);
}

/** Writes a line, so that a disk without room shows at the start and not at the first repetition. */
function openForWriting(file: string, { wait_ms }: OpenOptions): Store {
  const store = Store.open(file, wait_ms);
  try {
    store
      .prepare(
        "INSERT INTO settings (name, value) VALUES ('started_utc', ?) ON CONFLICT DO UPDATE SET value = excluded.value",
      )
      .run(new Date().toISOString());
    return store;
  } catch (error) {
    store.close();
    throw storeFault(error, file) ?? error;
  }
}

/** A first start that found no room leaves nothing that the next one would take for an emptied database. */
function removeHalfMade(file: string): void {
  for (const ending of ['', '-wal', '-shm', '-journal']) rmSync(file + ending, { force: true });
}
