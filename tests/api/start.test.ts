/** A start never ends in a stack trace, and two servers never work on one folder. */
import {
  appendFileSync,
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
import { afterEach, beforeEach, expect, test } from 'vitest';
import { buildApp } from '../../api/server/app.ts';
import { ErrorLog } from '../../api/server/error-log.ts';
import { lockFolder } from '../../api/server/folder-lock.ts';
import { startServer } from '../../api/server/server.ts';
import { Store } from '../../api/store/store.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'cinderlane-start-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));
const refused = async (data_folder = folder) =>
  startServer({ data_folder, port: 0 }).then(
    async (server) => {
      await server.close();
      return 'started';
    },
    (error: { code: string }) => error.code,
  );

test('a folder that another process holds, though it does not answer yet, is refused and then free again', async () => {
  const giveBack = lockFolder(folder)!;
  expect(lockFolder(folder)).toBeNull();
  expect(await refused()).toBe('SERVER_RUNNING');
  giveBack();
  expect(await refused()).toBe('started');
});

test('a file in the place of the folder, a damaged database and an emptied one are told, and left as they are', async () => {
  const file = join(folder, 'a-file');
  writeFileSync(file, 'x');
  expect(await refused(file)).toBe('FOLDER_NOT_WRITABLE');

  const damaged = join(folder, 'damaged');
  mkdirSync(damaged);
  writeFileSync(
    join(damaged, 'cinderlane.sqlite'),
    'this is no database, but longer than a header of a hundred bytes'.repeat(4),
  );
  expect(await refused(damaged)).toBe('DATABASE_UNREADABLE');

  const emptied = join(folder, 'emptied');
  mkdirSync(join(emptied, 'captures'), { recursive: true });
  writeFileSync(join(emptied, 'cinderlane.sqlite'), '');
  expect(await refused(emptied)).toBe('DATABASE_UNREADABLE');
  expect(statSync(join(emptied, 'cinderlane.sqlite')).size).toBe(0);
  rmSync(join(emptied, 'captures'), { recursive: true });
  expect(await refused(emptied)).toBe('started');
});

test('the database and its log are for their owner alone', () => {
  const store = Store.open(join(folder, 'club.sqlite'));
  for (const name of ['club.sqlite', 'club.sqlite-wal']) expect(statSync(join(folder, name)).mode & 0o777).toBe(0o600);
  store.close();
});

test('a failure of the program is kept without what people typed, and the fault points to it', async () => {
  const store = Store.open(':memory:');
  const file = join(folder, 'errors.log');
  const app = await buildApp({ store, error_log: new ErrorLog(file) });
  app.get('/api/broken', { schema: { hide: true } }, () => {
    throw new TypeError('Rosa Quill is not iterable');
  });
  const answer = (await app.inject('/api/broken')).json();
  expect(answer.code).toBe('INTERNAL');
  const [line] = readFileSync(file, 'utf8').trim().split('\n');
  expect(JSON.parse(line)).toMatchObject({
    error_id: answer.where.error_id,
    during: 'GET /api/broken',
    kind: 'TypeError',
  });
  expect(line).not.toContain('Rosa');
  await app.close();
});

test('the log of failures turns over before it grows large', () => {
  const file = join(folder, 'errors.log');
  const log = new ErrorLog(file);
  appendFileSync(file, 'x'.repeat(1_000_001));
  log.note({ during: 'a test', error: new Error('x') });
  expect(statSync(file).size).toBeLessThan(10_000);
  expect(existsSync(`${file}.before`)).toBe(true);
});
