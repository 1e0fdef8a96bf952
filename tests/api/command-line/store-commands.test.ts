import { spawn } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startServer } from '../../../api/server/server.ts';
import { Store } from '../../../api/store/store.ts';
import { sprintFiles } from '../../helpers/sprint-files.ts';
import { runCommand } from './run-command.ts';

let folder = '';
const path = (name: string) => join(folder, name);
const data = () => ['--data', path('data')];

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'cinderlane-commands-'));
  for (const seed of [7, 8]) {
    const { left, right } = sprintFiles(seed);
    writeFileSync(path(`${seed}-left.csv`), left);
    writeFileSync(path(`${seed}-right.csv`), right);
  }
  writeFileSync(path('letter.csv'), 'Dear coach,\n\nno running today.\n');
  writeFileSync(
    path('list.csv'),
    [
      'left,right,athlete,session_date,mounting,course,effort_percent',
      '7-left.csv,7-right.csv,Mila Oster,2026-03-02,foot,30m,100',
      'letter.csv,,Mila Oster,2026-03-02,foot,30m,100',
      '8-left.csv,8-right.csv,Juno Sand,2026-03-02,foot,30m,90',
      'nowhere.csv,,Juno Sand,2026-03-02,foot,30m,90',
    ].join('\n'),
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('import', () => {
  it('takes a list, goes on past what fails, and sums the failures up by their code', async () => {
    const end = await runCommand(['import', '--list', path('list.csv'), ...data()]);
    expect(end.exit_code).toBe(1);
    expect(end.stdout).toContain('2 imported, 0 known before, 2 failed');
    expect(end.stderr).toContain('1 x NOT_A_RECORDING');
    expect(end.stderr).toContain('list.csv line 3');
    expect(end.stderr).toContain('1 x FILE_NOT_FOUND');
  });

  it('given the same list again does only what is not done', async () => {
    const end = await runCommand(['import', '--list', path('list.csv'), ...data()]);
    expect(end.stdout).toContain('0 imported, 2 known before, 2 failed');
    const store = Store.open(path('data/cinderlane.sqlite'));
    expect(store.prepare('SELECT count(*) AS n FROM repetitions').get()).toEqual({ n: 2 });
    expect(store.prepare('SELECT name FROM athletes ORDER BY name').all()).toEqual([
      { name: 'Juno Sand' },
      { name: 'Mila Oster' },
    ]);
    store.close();
  });

  it('takes one repetition by options', async () => {
    const files = ['--left', path('8-left.csv'), '--right', path('8-right.csv')];
    const place = ['--athlete', 'Nell Okoro', '--date', '2026-03-03', '--mount', 'foot', '--course', '30m'];
    const end = await runCommand(['import', ...files, ...place, ...data()]);
    expect([end.exit_code, end.stdout.split('\n').at(-2)]).toEqual([0, '1 imported, 0 known before, 0 failed']);
  });

  it('refuses one file with exit code 3', async () => {
    const place = ['--athlete', 'Nell Okoro', '--date', '2026-03-03', '--mount', 'foot'];
    const end = await runCommand(['import', '--left', path('letter.csv'), ...place, ...data()]);
    expect(end.exit_code).toBe(3);
  });

  it.each([
    ['left,athlete,session_date,mounting,colour\na.csv,A,2026-03-02,foot,red', 'colour'],
    ['left,athlete,session_date\na.csv,A,2026-03-02', 'mounting'],
    ['left,athlete,session_date,mounting\n,A,2026-03-02,foot', 'line 2'],
  ])('refuses a list that cannot be read and says where', async (text, where) => {
    writeFileSync(path('broken.csv'), text);
    const end = await runCommand(['import', '--list', path('broken.csv'), ...data()]);
    expect(end.exit_code).toBe(2);
    expect(end.stderr).toContain('LIST_UNREADABLE');
    expect(end.stderr).toContain(where);
  });

  it('goes through the server that works on the folder', async () => {
    const server = await startServer({ data_folder: path('data'), port: 0 });
    const place = ['--athlete', 'Otto Fell', '--date', '2026-03-04', '--mount', 'foot', '--course', '30m'];
    const end = await runCommand(['import', '--left', path('7-left.csv'), ...place, ...data()]);
    expect(end.exit_code).toBe(0);
    const again = await runCommand(['serve', '--port', '0', ...data()]);
    expect([again.exit_code, again.stderr.split(':')[0]]).toEqual([1, 'SERVER_RUNNING']);
    await server.close();
  });
});

describe('reanalyze', () => {
  it('compares new with old, and shows the new ones only when told to accept them', async () => {
    const currentIds = () => {
      const store = Store.open(path('data/cinderlane.sqlite'));
      const rows = store.prepare('SELECT analysis_id AS id FROM repetitions ORDER BY repetition_id').all() as {
        id: number;
      }[];
      store.close();
      return rows.map((row) => row.id);
    };
    const before = currentIds();
    const end = await runCommand(['reanalyze', ...data()]);
    expect(end.exit_code).toBe(0);
    expect(end.stdout).toContain(`${before.length} analysed again, 0 failed`);
    expect(end.stdout).toMatch(/contact_time_ms +\d+ +\d+ +0 +0 +0 /);
    expect(currentIds()).toEqual(before);
    const accepted = await runCommand(['reanalyze', '--athlete', 'Juno Sand', '--accept', ...data()]);
    expect(accepted.exit_code).toBe(0);
    expect(currentIds().filter((id, i) => id !== before[i]).length).toBe(1);
  });

  it('says when there is no such athlete', async () => {
    const end = await runCommand(['reanalyze', '--athlete', 'Nobody', ...data()]);
    expect([end.exit_code, end.stderr.split(':')[0]]).toEqual([3, 'ATHLETE_NOT_FOUND']);
  });
});

describe('backup', () => {
  it('copies a database in use, checked, and the copy serves as one', async () => {
    const server = await startServer({ data_folder: path('data'), port: 0 });
    const end = await runCommand(['backup', '--out', path('copy.sqlite'), ...data()]);
    await server.close();
    expect(end.exit_code).toBe(0);
    expect(end.stdout).toContain('checked');
    mkdirSync(path('restored'));
    copyFileSync(path('copy.sqlite'), path('restored/cinderlane.sqlite'));
    const store = Store.open(path('restored/cinderlane.sqlite'));
    expect(store.prepare('SELECT count(*) AS n FROM athletes').get()).toEqual({ n: 4 });
    store.close();
  });

  it('says when there is nothing to copy, and leaves an older copy alone', async () => {
    const end = await runCommand(['backup', '--out', path('copy.sqlite'), '--data', path('empty')]);
    expect([end.exit_code, end.stderr.split(':')[0]]).toEqual([2, 'FILE_NOT_FOUND']);
    const store = Store.open(path('copy.sqlite'));
    expect(store.database.pragma('integrity_check', { simple: true })).toBe('ok');
    store.close();
  });
});

describe('serve', () => {
  it('prints its address, serves the API, and ends cleanly when asked to', async () => {
    const entry = fileURLToPath(new URL('../../../api/command-line/cinderlane.mjs', import.meta.url));
    const child = spawn(process.execPath, [entry, 'serve', '--port', '0', '--data', path('served')]);
    const printed = await new Promise<string>((resolve) =>
      child.stdout.once('data', (bytes) => resolve(String(bytes))),
    );
    const address = /http:\/\/127\.0\.0\.1:\d+/.exec(printed)![0];
    const health = (await (await fetch(`${address}/api/health`)).json()) as { ok: boolean };
    expect(health.ok).toBe(true);
    expect((await fetch(`${address}/api/docs`)).status).toBe(200);
    const ended = new Promise((resolve) => child.once('exit', resolve));
    child.kill('SIGTERM');
    expect(await ended).toBe(0);
  });
});
