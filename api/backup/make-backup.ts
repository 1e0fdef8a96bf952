import { createHash } from 'node:crypto';
import {
  chmodSync,
  closeSync,
  createReadStream,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { FaultError, fault } from '../../shared/fault.ts';
import { keepDiskFloor } from '../store/disk-floor.ts';
import { type CaptureRecords, packFiles, readCaptureRecords } from '../store/packed-files.ts';
import { openSealedFile, sealFile } from './sealed-file.ts';

/** Passing files of a backup in the data folder: what a killed one left is taken away by the next. */
const PASSING = /^backup-\d+\.(?:part|check)(?:-wal|-shm|-journal)?$/;

/**
 * Copies a database that may be in use, checks the copy, then gives it its name. The plain copy passes through the data folder, so that
 * nothing unsealed ever lies where a sealed copy goes.
 * The packet logs of captures and added descriptions of sensors are put into it.
 * @param passphrase seals the copy; it is opened again and compared before it gets its name
 * @param packets false leaves the packet logs out
 * @returns how many files beside the database it holds
 * @throws FaultError FILE_NOT_FOUND, BACKUP_FAILED, DISK_FULL
 */
export async function backUp(
  source: string,
  copy: string,
  passphrase: string | null = null,
  packets = true,
): Promise<number> {
  if (!existsSync(source)) {
    throw new FaultError(fault('FILE_NOT_FOUND.to_back_up', { file: source }, { file: source }));
  }
  const folder = dirname(source);
  const plain = join(folder, `backup-${process.pid}.part`);
  const opened = join(folder, `backup-${process.pid}.check`);
  const arriving = `${copy}.part`;
  const usual = process.umask(0o077);
  try {
    mkdirSync(dirname(copy), { recursive: true });
    removePassing(folder);
    keepDiskFloor(folder);
    const records = readCaptureRecords(folder);
    const database = new Database(source, { readonly: true });
    try {
      await database.backup(plain);
    } finally {
      database.close();
    }
    const files = packets ? packInto(plain, folder, records) : 0;
    checkDatabase(plain);
    if (passphrase === null) await copyThrough(plain, arriving);
    else {
      sealFile(plain, arriving, passphrase);
      openSealedFile(arriving, opened, passphrase);
      if ((await digestOf(opened)) !== (await digestOf(plain)))
        throw new Error('the sealed copy does not open to the same');
    }
    chmodSync(arriving, 0o600);
    settle(arriving);
    renameSync(arriving, copy);
    return files;
  } catch (error) {
    if (error instanceof FaultError) throw error;
    const why = error instanceof Error ? error.message : String(error);
    throw new FaultError(fault('BACKUP_FAILED', { file: copy, why }, { file: copy }));
  } finally {
    process.umask(usual);
    removePassing(folder);
    rmSync(arriving, { force: true });
  }
}

function packInto(plain: string, folder: string, records: CaptureRecords): number {
  const database = new Database(plain);
  try {
    // No log of its own beside it: the copy is one file.
    database.pragma('journal_mode = DELETE');
    return packFiles(database, folder, records);
  } finally {
    database.close();
  }
}

/** @throws Error when the file is no whole database */
export function checkDatabase(file: string): void {
  const database = new Database(file, { readonly: true });
  try {
    const found = database.pragma('integrity_check', { simple: true });
    if (found !== 'ok') throw new Error(`the copy is damaged: ${found}`);
  } finally {
    database.close();
  }
}

/** A copy on another disk is checked as well: what was read back must be what was written. */
async function copyThrough(from: string, to: string): Promise<void> {
  const { copyFile } = await import('node:fs/promises');
  await copyFile(from, to);
  if ((await digestOf(from)) !== (await digestOf(to))) throw new Error('the copy differs from the database');
}

async function digestOf(file: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const piece of createReadStream(file)) hash.update(piece as Buffer);
  return hash.digest('hex');
}

/** Waits until the file is on the disk, not in the system's memory alone. */
export function settle(file: string): void {
  const fd = openSync(file, 'r+');
  try {
    fsyncSync(fd);
  } finally {
    closeSync(fd);
  }
}

function removePassing(folder: string): void {
  for (const name of readdirSync(folder)) if (PASSING.test(name)) rmSync(join(folder, name), { force: true });
}
