import { constants, copyFileSync, existsSync, mkdirSync, readdirSync, rmSync, statfsSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { FaultError } from '../../shared/fault.ts';
import { isNewest } from './migrate.ts';
import type { OpenedStore, OpenOptions } from './opened-store.ts';
import type { ReadOnlyReason } from './read-only.ts';
import { Store } from './store.ts';

/** Where a copy may lie: the system's own place, and memory where the system has such a place. */
const PLACES = [tmpdir(), '/dev/shm'];
const SPARE_BYTES = 64 * 1024 * 1024;
const COPY_NAME = /^cinderlane-reading-(\d+)$/;
/** A file that is being written while it is copied is copied again this often. */
const COPY_TRIES = 5;

/**
 * Opens a database that cannot be written. Read where it lies, if SQLite can: it wants to put its index of the log beside the file. Else a
 * passing copy is read, of the newest shape, which goes when it is closed, or with the next start that needs one.
 * Weighed: SQLite's `immutable` (the library has addresses of that kind switched off), the whole database in memory (a year is gigabytes).
 * @throws FaultError READ_ONLY as given where neither works; DATABASE_UNREADABLE
 */
export function openForLooking(file: string, why: ReadOnlyReason, { wait_ms }: OpenOptions = {}): OpenedStore {
  const newer = why.sentence === 'READ_ONLY.newer';
  const direct = openDirectly(file, why, wait_ms);
  if (direct) return { store: direct, close: () => direct.close() };
  removeLeftCopies();
  for (const place of PLACES) {
    const folder = join(place, `cinderlane-reading-${process.pid}`);
    const remove = () => rmSync(folder, { recursive: true, force: true });
    try {
      const copy = copyInto(file, folder);
      const store = Store.openCopy(copy, { folder: dirname(file), why, newest: !newer });
      const close = () => {
        store.close();
        remove();
      };
      return { store, close };
    } catch (error) {
      remove();
      if (error instanceof FaultError && error.code === 'DATABASE_UNREADABLE') throw error;
    }
  }
  throw new FaultError(why);
}

function openDirectly(file: string, why: ReadOnlyReason, wait_ms?: number): Store | null {
  let store: Store | null = null;
  try {
    store = Store.openForReading(file, { folder: dirname(file), why, wait_ms });
    // Without its columns of today nothing could be asked; a newer one has them, and more.
    if (why.sentence === 'READ_ONLY.newer' || isNewest(store.database)) return store;
  } catch {
    // Read from a copy.
  }
  store?.close();
  return null;
}

/** @throws Error where there is no room, or the file does not stand still */
function copyInto(file: string, folder: string): string {
  const parts = ['', '-wal'].map((ending) => file + ending).filter((part) => existsSync(part));
  const bytes = parts.reduce((sum, part) => sum + statSync(part).size, 0);
  mkdirSync(folder, { mode: 0o700 });
  const { bavail, bsize } = statfsSync(folder);
  if (bavail * bsize < bytes + SPARE_BYTES) throw new Error('no room for a copy');
  const stamp = () => parts.map((part) => `${statSync(part).size} ${statSync(part).mtimeMs}`).join();
  for (let tries = 0; tries < COPY_TRIES; tries++) {
    const before = stamp();
    for (const part of parts) copyFileSync(part, join(folder, basename(part)), constants.COPYFILE_FICLONE);
    if (stamp() === before) return join(folder, basename(file));
  }
  throw new Error('the database changes while it is copied');
}

/** Copies of programs that were killed. */
function removeLeftCopies(): void {
  for (const place of PLACES.filter((one) => existsSync(one))) {
    for (const name of readdirSync(place)) {
      const pid = COPY_NAME.exec(name)?.[1];
      if (pid === undefined || isRunning(Number(pid))) continue;
      try {
        rmSync(join(place, name), { recursive: true, force: true });
      } catch {
        // Somebody else's.
      }
    }
  }
}

function isRunning(pid: number): boolean {
  if (pid === process.pid) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
