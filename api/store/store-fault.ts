import { dirname } from 'node:path';
import { fault, FaultError } from '../../shared/fault.ts';

/** What SQLite says when the machine, not the program, is at fault: in words that help. Null for everything else. */
export function storeFault(error: unknown, file: string): FaultError | null {
  const code = (error as { code?: unknown } | null)?.code;
  if (typeof code !== 'string' || !code.startsWith('SQLITE_')) return null;
  const why = (error as Error).message;
  if (code === 'SQLITE_FULL' || code.startsWith('SQLITE_IOERR')) {
    return new FaultError({
      code: 'DISK_FULL',
      message: `${file}: the disk is full or cannot be written (${why}). What was stored before is safe; this was not stored.`,
      where: { file },
      hint: 'Make room, then do it again.',
    });
  }
  if (code === 'SQLITE_NOTADB' || code.startsWith('SQLITE_CORRUPT')) {
    return new FaultError({
      code: 'DATABASE_UNREADABLE',
      message: `${file}: is no database, or is damaged (${why}). It was left as it is.`,
      where: { file },
      hint: 'Put a backup in its place, or name another data folder with --data.',
    });
  }
  if (code.startsWith('SQLITE_CANTOPEN') || code.startsWith('SQLITE_READONLY')) {
    return new FaultError(fault('FOLDER_NOT_WRITABLE', { folder: dirname(file), why }, { folder: dirname(file) }));
  }
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED')) {
    return new FaultError({
      code: 'DATABASE_BUSY',
      message: `${file}: another program held the database for too long (${why}). This was not stored.`,
      where: { file },
      hint: 'Do it again; when it stays so, close what else uses the file.',
    });
  }
  return null;
}
