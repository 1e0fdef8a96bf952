/** Exit codes of every command; they never change meaning. */
export const EXIT = { done: 0, failed: 1, wrongUsage: 2, inputRefused: 3 } as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** Codes that mean the command line itself was wrong, not the input it names. */
const USAGE_CODES = new Set([
  'COMMAND_UNKNOWN',
  'OPTION_UNKNOWN',
  'OPTION_MISSING',
  'OPTION_UNREADABLE',
  'DISTANCE_UNREADABLE',
  'FILE_NOT_FOUND',
  'JSON_UNREADABLE',
  'LIST_UNREADABLE',
  'SETTINGS_UNREADABLE',
]);

/** Codes that mean the program or the machine failed, not the user. */
const FAILURE_CODES = new Set([
  'INTERNAL',
  'OUTPUT_NOT_WRITABLE',
  'SERVER_PORT_TAKEN',
  'SERVER_RUNNING',
  'FOLDER_NOT_WRITABLE',
  'PARTLY_FAILED',
  'BACKUP_FAILED',
  'RESTORE_FAILED',
  'DATABASE_UNREADABLE',
  'DATABASE_NEWER',
  'DATABASE_BUSY',
  'DISK_FULL',
  'READ_ONLY',
  'ARCHIVE_UNREACHABLE',
  'ARCHIVE_NOT_MADE',
  'ARCHIVE_OLDER',
  'ARCHIVE_NEWER',
  'ARCHIVE_DAMAGED',
]);

/** Exit code of a command that ended with a fault. */
export function exitCodeOf(faultCode: string): ExitCode {
  if (USAGE_CODES.has(faultCode)) return EXIT.wrongUsage;
  return FAILURE_CODES.has(faultCode) ? EXIT.failed : EXIT.inputRefused;
}
