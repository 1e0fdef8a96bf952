import { execFile, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Import } from '../../shared/schemas/import.ts';
import { type InstalledPackage, installPackage, packagesIn } from '../helpers/installed-package.ts';
import { addressOf, finishedImport } from '../helpers/package-server.ts';
import { postgresPrograms, startPostgres } from '../helpers/postgres.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';

const run = promisify(execFile);
let installed: InstalledPackage;

beforeAll(() => {
  installed = installPackage();
  const { left, right } = sprintFiles();
  writeFileSync(join(installed.folder, 'L.csv'), left);
  writeFileSync(join(installed.folder, 'R.csv'), right);
}, 300_000);

afterAll(() => installed?.remove());

describe('the package, installed outside the checkout', () => {
  const cinderlane = (...words: string[]) =>
    run(process.execPath, [installed.command, ...words], { cwd: installed.folder });

  test('holds the built view and program, migrations and notices, and neither sources nor tests', () => {
    const { files } = installed;
    expect(files).toEqual(
      expect.arrayContaining([
        'LICENSE',
        'README.md',
        'web/dist/index.html',
        'web/dist/third-party-notices.md',
        'api/dist/third-party-notices.md',
        'api/store/migrations/001-base.sql',
      ]),
    );
    expect(files.filter((path) => /^tests\//.test(path) || /\.tsx?$/.test(path))).toEqual([]);
  });

  test('needs no build tool, and its notices name what was built into it', () => {
    const names = packagesIn(installed.folder);
    for (const tool of ['vite', 'typescript', 'tsx', 'esbuild', 'node-gyp', 'vitest'])
      expect(names).not.toContain(tool);
    const server = readFileSync(
      join(installed.folder, 'node_modules/cinderlane/api/dist/third-party-notices.md'),
      'utf8',
    );
    const view = readFileSync(
      join(installed.folder, 'node_modules/cinderlane/web/dist/third-party-notices.md'),
      'utf8',
    );
    // One licence each of what is in the build; the whole list is the bundler's.
    for (const name of ['fastify', 'kysely', 'papaparse', 'fili', 'fft.js', 'node-ble', 'simple-statistics']) {
      expect(server).toContain(`## ${name} - `);
    }
    for (const name of ['preact', 'uplot']) expect(view).toContain(`## ${name} - `);
  });

  test('analyze writes a row for every step of a sprint', async () => {
    await cinderlane(
      'analyze',
      '--left',
      'L.csv',
      '--right',
      'R.csv',
      '--mount',
      'foot',
      '--course',
      '30m',
      '--out',
      'out',
    );
    const rows = readFileSync(join(installed.folder, 'out/steps.csv'), 'utf8').trim().split('\n').length - 1;
    // 30 m take 15 to 25 steps, and some more to stop.
    expect(rows).toBeGreaterThan(12);
  });

  test('serve shows the view, imports in a thread, makes a PDF and stops when told', async () => {
    mkdirSync(join(installed.folder, 'data'), { recursive: true });
    const server = spawn(process.execPath, [installed.command, 'serve', '--port', '0', '--data', 'data'], {
      cwd: installed.folder,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    try {
      const address = await addressOf(server);
      expect(await (await fetch(address)).text()).toContain('<title>Cinderlane</title>');
      expect((await fetch(`${address}/api/docs/static/index.html`)).status).toBe(200);
      const post = async <T>(path: string, body: unknown) => {
        const headers = { 'content-type': 'application/json' };
        const answer = await fetch(`${address}/api${path}`, { method: 'POST', headers, body: JSON.stringify(body) });
        return (await answer.json()) as T;
      };
      const { athlete_id } = await post<{ athlete_id: number }>('/athletes', { name: 'Ines Quill' });
      const session = { session_date: '2026-11-30', title: 'Starts' };
      const { session_id } = await post<{ session_id: number }>('/sessions', session);
      const form = new FormData();
      for (const [name, value] of Object.entries({ athlete_id, session_id, mounting: 'foot', course: '30m' })) {
        form.append(name, String(value));
      }
      form.append('left', new Blob([sprintFiles().left]), 'L.csv');
      form.append('right', new Blob([sprintFiles().right]), 'R.csv');
      const begun = (await (await fetch(`${address}/api/imports`, { method: 'POST', body: form })).json()) as Import;
      const done = await finishedImport(address, begun.import_id);
      expect(done.state).toBe('done');
      const report = await fetch(`${address}/api/coach/reports/repetition/${done.repetition_ids[0]}/page.pdf`);
      expect(report.headers.get('content-type')).toContain('application/pdf');
      expect((await fetch(`${address}/api/capture/descriptions`)).status).toBe(200);
    } finally {
      const ended = once(server, 'exit');
      server.kill('SIGTERM');
      expect((await ended)[0]).toBe(0);
    }
  });

  test.skipIf(postgresPrograms() === null)(
    'makes an archive, sends to it, works on it and writes it as Parquet',
    async () => {
      const server = startPostgres();
      try {
        server.run('createdb', ['programme']);
        const owner = server.address('programme');
        expect((await cinderlane('archive', 'init', '--archive', owner)).stdout).toContain('level: pseudonyms');
        const { stdout } = await cinderlane(
          'archive',
          'admit',
          '--archive',
          owner,
          '--as',
          'club',
          '--name',
          'Mill Road',
        );
        const club = /address {3}(\S+)/.exec(stdout)![1];
        const database = new Database(join(installed.folder, 'data/cinderlane.sqlite'));
        database
          .prepare("INSERT INTO research_consents (athlete_id, status, status_date) VALUES (1, 'given', '2026-11-30')")
          .run();
        database.close();
        const sent = await cinderlane('archive', 'push', '--archive', club, '--data', 'data');
        expect(sent.stdout).toContain('sent: 1 repetitions');
        await cinderlane('work', 'start', '--archive', owner);
        expect((await cinderlane('work', '--until-done', '--archive', owner)).stdout).toContain('1 done, 0 failed');
        const written = await cinderlane('archive', 'parquet', '--files', 'parquet', '--archive', owner);
        expect(written.stdout).toMatch(/^1 parts written with \d\d contacts/);
      } finally {
        server.stop();
      }
    },
  );

  test('a machine without the database library is told in one sentence, and can still analyse', async () => {
    const { folder } = installed;
    const library = join(folder, 'node_modules/better-sqlite3');
    renameSync(library, `${library}-away`);
    try {
      const serve = await cinderlane('serve', '--port', '0', '--data', 'data').catch((error) => error);
      expect(serve.code).toBe(1);
      expect(serve.stderr.trim().split('\n')).toHaveLength(1);
      expect(serve.stderr).toContain('better-sqlite3');
      await cinderlane('analyze', '--left', 'L.csv', '--right', 'R.csv', '--mount', 'foot', '--out', 'out');
    } finally {
      renameSync(`${library}-away`, library);
    }
  });
});
