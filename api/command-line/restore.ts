import { resolve } from 'node:path';
import { restoreBackup } from '../backup/restore-backup.ts';
import type { Command } from './command.ts';
import { DATA_OPTION, dataFolder } from './data-folder.ts';
import { EXIT } from './exit-codes.ts';
import { PASSPHRASE_OPTION, passphraseOf } from './passphrase.ts';

export const restoreCommand: Command = {
  name: 'restore',
  summary: 'Puts a backup in the place of the database, which is kept beside it.',
  options: {
    from: { value: 'FILE', required: true, help: 'the backup, sealed or not' },
    'passphrase-file': PASSPHRASE_OPTION,
    data: DATA_OPTION,
  },
  details:
    'The server must not run. People who were erased since the backup was made are erased from it at the next start, and devices that\n' +
    'were revoked since stay revoked.',
  run: async (options) => {
    const folder = dataFolder(options);
    const kept = restoreBackup(resolve(options.from as string), folder, passphraseOf(options));
    process.stdout.write(`${folder}: restored${kept === null ? '' : `; the former database is ${kept}`}\n`);
    return EXIT.done;
  },
};
