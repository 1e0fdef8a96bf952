import { statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { backUp } from '../backup/make-backup.ts';
import { DATABASE_NAME } from '../server/running-server.ts';
import type { Command } from './command.ts';
import { DATA_OPTION, dataFolder } from './data-folder.ts';
import { EXIT } from './exit-codes.ts';
import { PASSPHRASE_OPTION, passphraseOf } from './passphrase.ts';

export const backupCommand: Command = {
  name: 'backup',
  summary: 'A checked copy of the whole database in one file, also while the server runs.',
  options: {
    out: {
      value: 'FILE',
      required: true,
      help: 'the copy; an older copy of this name is replaced once the new one is good',
    },
    'without-packets': { help: 'leaves out the raw packet logs of live captures, about 90 MB an hour of two sensors' },
    'passphrase-file': PASSPHRASE_OPTION,
    data: DATA_OPTION,
  },
  details:
    'To go back: cinderlane restore --from FILE. By itself, every day: cinderlane serve --backups DIR. It holds the database, the raw\n' +
    'packet logs of live captures, and the descriptions of sensors that were added; not the certificate and key of --lan.',
  run: async (options) => {
    const source = join(dataFolder(options), DATABASE_NAME);
    const copy = resolve(options.out as string);
    const passphrase = passphraseOf(options);
    const files = await backUp(source, copy, passphrase, options['without-packets'] !== true);
    const how = passphrase === null ? 'checked' : 'sealed and checked';
    process.stdout.write(
      `${copy}: ${(statSync(copy).size / 1e6).toFixed(1)} MB, ${how}; ${files} files of captures and descriptions in it\n`,
    );
    return EXIT.done;
  },
};
