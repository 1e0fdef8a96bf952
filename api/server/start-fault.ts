import { fault, FaultError } from '../../shared/fault.ts';
import { storeFault } from '../store/store-fault.ts';
import type { ErrorLog } from './error-log.ts';

/**
 * What keeps a server from starting, in words. What nobody foresaw is kept in the log of failures, and pointed to: a start does not end in a
 * stack trace.
 */
export function startFault(
  error: unknown,
  { host = '127.0.0.1', port = 0 }: { host?: string; port?: number },
  folder: string,
  error_log: ErrorLog,
): FaultError {
  if (error instanceof FaultError) return error;
  const { code, message } = error as NodeJS.ErrnoException;
  if (code === 'EADDRINUSE') return portTaken(port, '--port');
  if (code === 'EACCES' && port > 0 && port < 1024) {
    return new FaultError(
      fault('OPTION_UNREADABLE.reserved_port', { port }, { option: '--port', value: String(port) }),
    );
  }
  if (code === 'EADDRNOTAVAIL' || code === 'ENOTFOUND' || code === 'EINVAL' || code === 'EAI_AGAIN') {
    return new FaultError(fault('OPTION_UNREADABLE.host', { host }, { option: '--host', value: host }));
  }
  if (code === 'ENOSPC' || code === 'EDQUOT' || code === 'EFBIG')
    return new FaultError(fault('DISK_FULL', { file: folder, why: message }, { file: folder }));
  if (code === 'EACCES' || code === 'EPERM' || code === 'EROFS')
    return new FaultError(fault('FOLDER_NOT_WRITABLE', { folder, why: message }, { folder }));
  const known = storeFault(error, folder);
  if (known !== null) return known;
  const error_id = error_log.note({ during: 'the start', error });
  return new FaultError(fault('INTERNAL.start', { error_id, folder }, { error_id, folder }));
}

/** @param option the command line's option that names the port */
export function portTaken(port: number, option: '--port' | '--https-port'): FaultError {
  return new FaultError(fault('SERVER_PORT_TAKEN', { port, option }, { port }));
}
