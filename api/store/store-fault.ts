import { dirname } from 'node:path';
import { fault, FaultError } from '../../shared/fault.ts';

/** What SQLite says when the machine, not the program, is at fault: in words that help. Null for everything else. */
export function storeFault(error: unknown, file: string): FaultError | null {
  const code = (error as { code?: unknown } | null)?.code;
  if (typeof code !== 'string' || !code.startsWith('SQLITE_')) return null;
  const why = (error as Error).message;
  if (code === 'SQLITE_FULL' || code.startsWith('SQLITE_IOERR')) {
    return new FaultError(fault('DISK_FULL', { file, why }, { file }));
  }
  if (code === 'SQLITE_NOTADB' || code.startsWith('SQLITE_CORRUPT')) {
    return new FaultError(fault('DATABASE_UNREADABLE', { file, why }, { file }));
  }
  if (code.startsWith('SQLITE_CANTOPEN') || code.startsWith('SQLITE_READONLY')) {
    return new FaultError(fault('FOLDER_NOT_WRITABLE', { folder: dirname(file), why }, { folder: dirname(file) }));
  }
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED')) {
    return new FaultError(fault('DATABASE_BUSY', { file, why }, { file }));
  }
  return null;
}
