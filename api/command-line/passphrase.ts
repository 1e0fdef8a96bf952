import { readFileSync } from 'node:fs';
import { FaultError, fault } from '../../shared/fault.ts';
import type { OptionDefinition, OptionValues } from './command.ts';

const VARIABLE = 'CINDERLANE_PASSPHRASE';
const SHORTEST = 12;

/** Never as an option's value: what is typed on a command line stands in its history and in the list of processes. */
export const PASSPHRASE_OPTION: OptionDefinition = {
  value: 'FILE',
  help: `file whose first line seals or opens the backup; $${VARIABLE} without it; without either the backup is not sealed`,
};

/** @returns null where none was given. @throws FaultError FILE_NOT_FOUND, OPTION_UNREADABLE when it is too short */
export function passphraseOf(options: OptionValues): string | null {
  const file = options['passphrase-file'] as string | undefined;
  const given = file === undefined ? process.env[VARIABLE] : firstLine(file);
  if (given === undefined || (given === '' && file === undefined)) return null;
  if (given.length < SHORTEST) {
    const where = { option: '--passphrase-file' };
    throw new FaultError(fault('OPTION_UNREADABLE.passphrase', { shortest: SHORTEST }, where));
  }
  return given;
}

function firstLine(file: string): string {
  try {
    return readFileSync(file, 'utf8').split(/\r?\n/)[0];
  } catch {
    throw new FaultError(fault('FILE_NOT_FOUND.passphrase', { file }, { file }));
  }
}
