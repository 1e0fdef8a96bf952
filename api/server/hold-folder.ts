import { accessSync, constants, existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fault, FaultError } from '../../shared/fault.ts';
import { type ReadOnlyReason, readOnlyReason } from '../store/read-only.ts';
import { lockFolder } from './folder-lock.ts';

export interface HeldFolder {
  /** Why nothing can be written there, though a database can be read; null where all is well. */
  blocked: ReadOnlyReason | null;
  giveBack(): void;
}

/**
 * Makes a data folder where there is none, and holds it for one server. A folder that cannot be written cannot be held either: those
 * who only read it do not disturb each other.
 * @param database name of the database in it
 * @throws FaultError SERVER_RUNNING while another server holds it; FOLDER_NOT_WRITABLE, DISK_FULL where there is no database to read
 */
export function holdFolder(folder: string, database: string): HeldFolder {
  try {
    makeFolder(folder);
    const giveBack = lockFolder(folder);
    if (giveBack === null) throw new FaultError(fault('SERVER_RUNNING.starting', { folder }, { folder }));
    return { blocked: null, giveBack };
  } catch (error) {
    const blocked = readOnlyReason(error, folder);
    if (blocked === null || !existsSync(join(folder, database))) throw error;
    return { blocked, giveBack: () => {} };
  }
}

/** @throws FaultError FOLDER_NOT_WRITABLE */
function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    accessSync(folder, constants.W_OK | constants.X_OK);
  } catch (error) {
    const why = (error as NodeJS.ErrnoException).code ?? String(error);
    throw new FaultError(fault('FOLDER_NOT_WRITABLE', { folder, why }, { folder }));
  }
}
