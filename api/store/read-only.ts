import type { CodedFault } from '../../shared/fault-shape.ts';
import { FaultError, fault } from '../../shared/fault.ts';

/** Why a store can be looked at but not changed: READ_ONLY, with what to do about it. */
export type ReadOnlyReason = CodedFault;

/**
 * What keeps a database from being written though it may still be read. Null where it is damaged or no database, or for another error.
 * @param error what opening or writing it threw
 * @param folder the data folder
 */
export function readOnlyReason(error: unknown, folder: string): ReadOnlyReason | null {
  if (!(error instanceof FaultError)) return null;
  const { code, fault: found } = error;
  const values = { folder, why: 'values' in found ? String(found.values.why ?? '') : '' };
  if (code === 'DISK_FULL') return fault('READ_ONLY.disk', values, { folder });
  if (code === 'FOLDER_NOT_WRITABLE') return fault('READ_ONLY.folder', values, { folder });
  if (code === 'DATABASE_BUSY') return fault('READ_ONLY.held', { folder }, { folder });
  if (code !== 'DATABASE_NEWER') return null;
  const migration = 'values' in found ? String(found.values.migration) : '';
  return fault('READ_ONLY.newer', { migration }, { folder });
}
