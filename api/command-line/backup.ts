import { existsSync, mkdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { FaultError, fault } from '../../shared/fault.ts';
import { DATABASE_NAME } from '../server/running-server.ts';
import type { Command } from './command.ts';
import { DATA_OPTION, dataFolder } from './data-folder.ts';
import { EXIT } from './exit-codes.ts';

export const backupCommand: Command = {
  name: 'backup',
  summary: 'A checked copy of the whole database in one file, also while the server runs.',
  options: {
    out: {
      value: 'FILE',
      required: true,
      help: 'the copy; an older copy of this name is replaced once the new one is good',
    },
    data: DATA_OPTION,
  },
  details: 'To go back: stop the server, put the copy in the data folder as cinderlane.sqlite, start the server.',
  run: async (options) => {
    const source = join(dataFolder(options), DATABASE_NAME);
    const copy = resolve(options.out as string);
    await backUp(source, copy);
    process.stdout.write(`${copy}: ${(statSync(copy).size / 1e6).toFixed(1)} MB, checked\n`);
    return EXIT.done;
  },
};

/**
 * Copies a database that may be in use, checks the copy, then gives it its name.
 * @throws FaultError FILE_NOT_FOUND, BACKUP_FAILED
 */
export async function backUp(source: string, copy: string): Promise<void> {
  if (!existsSync(source)) {
    throw new FaultError(fault('FILE_NOT_FOUND.to_back_up', { file: source }, { file: source }));
  }
  const passing = `${copy}.part`;
  try {
    mkdirSync(dirname(copy), { recursive: true });
    const database = new Database(source, { readonly: true });
    try {
      await database.backup(passing);
    } finally {
      database.close();
    }
    checkDatabase(passing);
    renameSync(passing, copy);
  } catch (error) {
    throw new FaultError(
      fault(
        'BACKUP_FAILED',
        { file: copy, why: error instanceof Error ? error.message : String(error) },
        { file: copy },
      ),
    );
  } finally {
    for (const ending of ['', '-wal', '-shm']) rmSync(passing + ending, { force: true });
  }
}

function checkDatabase(file: string): void {
  const database = new Database(file, { readonly: true });
  try {
    const found = database.pragma('integrity_check', { simple: true });
    if (found !== 'ok') throw new Error(`the copy is damaged: ${found}`);
  } finally {
    database.close();
  }
}
