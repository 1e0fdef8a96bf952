import { FaultError, fault } from '../../shared/fault.ts';
import type { OptionDefinition, OptionValues } from './command.ts';

const VARIABLE = 'CINDERLANE_ARCHIVE';

/** Where the archive is, the same for every command. */
export const ARCHIVE_OPTION: OptionDefinition = {
  value: 'ADDRESS',
  help: `postgres://user@host/database; $${VARIABLE} without it. The password may stand in PGPASSWORD or in the file of PGPASSFILE`,
};

/** @throws FaultError OPTION_MISSING */
export function archiveAddress(options: OptionValues, command: string): string {
  const address = (options.archive as string | undefined) ?? process.env[VARIABLE];
  if (address !== undefined) return address;
  throw new FaultError(
    fault('OPTION_MISSING.option', { command, option: '--archive ADDRESS' }, { option: '--archive' }),
  );
}
