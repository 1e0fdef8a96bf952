/** A database that cannot be written is shown: full disk, read-only folder, held by another program, of a newer version. Real disks, rights and locks. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { startServer } from '../../api/server/server.ts';
import { tightenFolder } from '../../api/server/tighten-folder.ts';
import { createAthlete, listAthletes } from '../../api/store/athletes.ts';
import { openForLooking } from '../../api/store/open-for-looking.ts';
import { openStore } from '../../api/store/open-store.ts';
import { Store } from '../../api/store/store.ts';
import { fault } from '../../shared/fault.ts';

const NOBODY = 65534;
const is_root = process.getuid?.() === 0;
let folder: string;
let data: string;
const undo: (() => unknown)[] = [];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'cinderlane-looking-'));
  chmodSync(folder, 0o755);
  data = join(folder, 'data');
  mkdirSync(data);
});
afterEach(async () => {
  for (const work of undo.splice(0).reverse()) await work();
  rmSync(folder, { recursive: true, force: true });
});

/** A database in good order, closed. */
function makeClub(where = data): string {
  const file = join(where, 'cinderlane.sqlite');
  const store = Store.open(file);
  createAthlete(store, { name: 'Rosa Quill' });
  store.close();
  return file;
}

interface Started {
  address: string | null;
  exit_code: number | null;
  stderr: string;
}

/** The program as a process of its own; for root, of a user whom the rights of files bind. */
async function serve(words: string[], command = [process.execPath], as_nobody = false): Promise<Started> {
  const [program, ...before] = command;
  const child: ChildProcess = spawn(
    program,
    [...before, 'api/command-line/cinderlane.mjs', 'serve', '--port', '0', '--data', data, ...words],
    { stdio: ['ignore', 'pipe', 'pipe'], ...(as_nobody && is_root ? { uid: NOBODY, gid: NOBODY } : {}) },
  );
  const ended = new Promise<number | null>((resolve) => child.once('close', resolve));
  undo.push(async () => {
    child.kill('SIGTERM');
    await ended;
  });
  let stderr = '';
  child.stderr!.on('data', (bytes: Buffer) => {
    stderr += bytes;
  });
  const address = new Promise<string>((resolve) => {
    let text = '';
    child.stdout!.on('data', (bytes: Buffer) => {
      text += bytes;
      const found = /http:\/\/\S+/.exec(text);
      if (found) resolve(found[0]);
    });
  });
  const said = new Promise<void>((resolve) => child.stderr!.on('data', () => /\n[^\n]+\n/.test(stderr) && resolve()));
  const at = await Promise.race([Promise.all([address, said]).then(([found]) => found), ended.then(() => null)]);
  return { address: at, exit_code: child.exitCode, stderr };
}

async function looksAtClub(address: string, sentence: RegExp): Promise<void> {
  const get = async (path: string) => (await fetch(`${address}/api${path}`)).json();
  expect((await get('/athletes')).items.map(({ name }: { name: string }) => name)).toEqual(['Rosa Quill']);
  expect((await get('/captures')).items).toEqual([]);
  expect((await get('/capture')).capture).toBeNull();
  const { read_only } = await get('/health');
  expect(read_only).toMatchObject({ code: 'READ_ONLY', message: expect.stringMatching(sentence) });
  expect(read_only.hint).not.toBe('');
  const refused = await fetch(`${address}/api/athletes`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', 'accept-language': 'de' },
    body: JSON.stringify({ name: 'New' }),
  });
  expect(refused.status).toBe(503);
  expect(await refused.json()).toMatchObject({ code: 'READ_ONLY', hint: expect.stringMatching(/neu starten/) });
}

describe('a start that cannot write shows what is stored, and says why and what to do', () => {
  test('with a folder that this user may not write', async () => {
    const file = makeClub();
    const before = readFileSync(file);
    for (const [path, mode] of [
      [file, 0o444],
      [data, 0o555],
    ] as const)
      chmodSync(path, mode);
    undo.push(() => chmodSync(data, 0o755));
    const { address, stderr } = await serve([], undefined, true);
    expect(stderr).toMatch(/^READ_ONLY: .*cannot be written/);
    expect(stderr).not.toMatch(/\n\s+at /);
    await looksAtClub(address!, /cannot be written/);
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  test('with a disk that is full to the last byte', async () => {
    const disk = join(folder, 'data');
    if (spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=4m', 'none', disk]).status === 0) {
      undo.push(() => spawnSync('umount', ['-l', disk]));
      makeClub(disk);
      const filling = spawnSync('dd', ['if=/dev/zero', `of=${join(disk, 'films')}`, 'bs=4096']);
      expect(filling.status).not.toBe(0);
      const { address, stderr } = await serve([]);
      expect(stderr).toMatch(/^READ_ONLY: .*is full/);
      expect(stderr).not.toMatch(/\n\s+at /);
      await looksAtClub(address!, /is full/);
      return;
    }
    // Without the right to mount: no file may grow, of the copy neither, so that nothing can be shown; it ends in words.
    makeClub();
    const { exit_code, stderr } = await serve([], ['prlimit', '--fsize=0', process.execPath]);
    expect(exit_code).toBe(1);
    expect(stderr).toMatch(/^READ_ONLY: .*is full/);
    expect(stderr).not.toMatch(/\n\s+at /);
  });

  test('with a database of a newer version, which is left as it is', async () => {
    const file = makeClub();
    const newer = new Database(file);
    newer.exec(
      "INSERT INTO migrations VALUES ('999-tomorrow.sql', ''); ALTER TABLE athletes ADD COLUMN of_tomorrow TEXT",
    );
    newer.close();
    const before = readFileSync(file);
    const server = await startServer({ data_folder: data, port: 0 });
    await looksAtClub(server.address, /newer version \(it holds "999-tomorrow.sql"\)/);
    await server.close();
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  test('while another program holds the database, whether it lets others read or not', () => {
    const file = makeClub();
    for (const hold of ['BEGIN IMMEDIATE', 'PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE']) {
      const other = new Database(file);
      other.exec(hold);
      const { store, close } = openStore(file, null, { wait_ms: 50 });
      expect(store.read_only?.sentence).toBe('READ_ONLY.held');
      expect(listAthletes(store).map(({ name }) => name)).toEqual(['Rosa Quill']);
      expect(() => createAthlete(store, { name: 'New' })).toThrow(/readonly/);
      close();
      other.close();
    }
  });
});

test('what is known of a program that was killed is taken away by the next that reads a copy', () => {
  const file = makeClub();
  // A process that has ended.
  const pid = spawnSync('true').pid;
  const left = join(tmpdir(), `cinderlane-reading-${pid}`);
  mkdirSync(left);
  const other = new Database(file);
  other.exec('PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE');
  const { store, close } = openForLooking(file, fault('READ_ONLY.held', { folder: data }), { wait_ms: 50 });
  expect(store.file).not.toBe(file);
  expect(store.folder).toBe(data);
  expect(existsSync(left)).toBe(false);
  const copy = store.file;
  close();
  expect(existsSync(copy)).toBe(false);
  other.close();
});

test('an older database in a folder that cannot be written is read in its newest shape', () => {
  const file = join(data, 'cinderlane.sqlite');
  const old = new Database(file);
  old.exec('CREATE TABLE migrations (name TEXT PRIMARY KEY, applied_utc TEXT NOT NULL) STRICT');
  old.exec(readFileSync(new URL('../../api/store/migrations/001-base.sql', import.meta.url), 'utf8'));
  old.exec("INSERT INTO migrations VALUES ('001-base.sql', '')");
  old.exec("INSERT INTO athletes (name, created_utc, updated_utc) VALUES ('Rosa Quill', '', '')");
  old.close();
  const { store, close } = openForLooking(file, fault('READ_ONLY.folder', { folder: data, why: 'EROFS' }));
  expect(listAthletes(store).map(({ name }) => name)).toEqual(['Rosa Quill']);
  close();
});

test('a first start without room leaves nothing that the next one would refuse', async () => {
  const full = join(data, 'there-is-no-such-folder', 'cinderlane.sqlite');
  expect(() => openStore(full)).toThrow();
  const limited = spawnSync('prlimit', [
    '--fsize=20000',
    process.execPath,
    'api/command-line/cinderlane.mjs',
    'serve',
    '--port',
    '0',
    '--data',
    data,
  ]);
  expect(limited.status).toBe(1);
  expect(limited.stderr.toString()).toMatch(/^DISK_FULL/);
  expect(limited.stderr.toString()).not.toMatch(/\n\s+at /);
  expect(existsSync(join(data, 'cinderlane.sqlite'))).toBe(false);
});

test('a host that is not this machine and a port that is not for everybody are told in words', async () => {
  await expect(startServer({ data_folder: data, port: 0, host: '192.0.2.7' })).rejects.toMatchObject({
    code: 'OPTION_UNREADABLE',
  });
  // The folder is free again.
  await (await startServer({ data_folder: data, port: 0 })).close();
});

test('rights that are too wide are taken back from what is ours, at any depth, and from nothing else', async () => {
  makeClub();
  const capture = join(data, 'captures', 'one');
  mkdirSync(capture, { recursive: true });
  writeFileSync(join(capture, 'S-left.packets'), '');
  writeFileSync(join(data, 'films.txt'), 'not ours');
  cpSync(join(data, 'cinderlane.sqlite'), join(data, 'cinderlane-before-2026-11-03T20-00-00.sqlite'));
  const paths = ['', 'captures', 'captures/one'];
  const files = ['cinderlane.sqlite', 'cinderlane-before-2026-11-03T20-00-00.sqlite', 'captures/one/S-left.packets'];
  const modeOf = (path: string) => statSync(join(data, path)).mode & 0o777;
  for (const path of paths) chmodSync(join(data, path), 0o755);
  for (const path of [...files, 'films.txt']) chmodSync(join(data, path), 0o644);
  await (await startServer({ data_folder: data, port: 0 })).close();
  expect(paths.map(modeOf)).toEqual([0o700, 0o700, 0o700]);
  expect(files.map(modeOf)).toEqual([0o600, 0o600, 0o600]);
  expect(modeOf('films.txt')).toBe(0o644);
  expect(tightenFolder(data)).toBe(0);
});
