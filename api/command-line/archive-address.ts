import { neededOption, type OptionDefinition, type OptionValues } from './command.ts';

const VARIABLE = 'CINDERLANE_ARCHIVE';

/** Where the archive is, the same for every command. */
export const ARCHIVE_OPTION: OptionDefinition = {
  value: 'ADDRESS',
  help: `postgres://user@host/database; $${VARIABLE} without it. The password may stand in PGPASSWORD or in the file of PGPASSFILE`,
};

/** @throws FaultError OPTION_MISSING */
export function archiveAddress(options: OptionValues, command: string): string {
  return neededOption({ archive: options.archive ?? process.env[VARIABLE] }, command, 'archive', 'ADDRESS');
}
