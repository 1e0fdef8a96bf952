import { resolve } from 'node:path';
import type { OptionDefinition, OptionValues } from './command.ts';

/** Where the database lies, the same for every command. */
export const DATA_OPTION: OptionDefinition = {
  value: 'DIR',
  help: 'folder of the database; $CINDERLANE_HOME or .cinderlane without it',
};

export function dataFolder(options: OptionValues): string {
  return resolve((options.data as string | undefined) ?? process.env.CINDERLANE_HOME ?? '.cinderlane');
}
