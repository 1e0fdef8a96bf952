/** The server of an archive's pages: who may what, what is counted how often, and what is said when the archive is away. */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { addDevice } from '../../../api/access/devices.ts';
import { TOKEN_COOKIE } from '../../../api/access/caller.ts';
import { startKeeperServer } from '../../../api/archive/serve/keeper-server.ts';
import { admit } from '../../../api/archive/make-archive.ts';
import type { FolderServer } from '../../../api/server/serve-folder.ts';
import { DEVICE_ROLES } from '../../../shared/schemas/access.ts';
import { postgresPrograms } from '../../helpers/postgres.ts';
import { type ArchivedClub, makeArchivedClub } from './archived-club.ts';
import { type KeptArchive, keepArchive } from './kept-archive.ts';

/** An address of the local network (RFC 1918). */
const ELSEWHERE = '192.168.7.31';
const there = postgresPrograms() !== null;
const folder = mkdtempSync(join(tmpdir(), 'cinderlane-keeper-'));
let club: ArchivedClub;
let archive: KeptArchive;
let server: FolderServer;

beforeAll(async () => {
  if (!there) return;
  club = await makeArchivedClub();
  archive = await keepArchive(club.folder);
  server = await startKeeperServer({ archive: archive.keeperAddress, data_folder: folder, host: '127.0.0.1', port: 0 });
});
afterAll(async () => {
  await server?.close();
  await archive?.close().catch(() => undefined);
  for (const one of [folder, club?.folder]) if (one) rmSync(one, { recursive: true, force: true });
});

async function ask(method: 'GET' | 'POST', url: string, payload?: object, headers: Record<string, string> = {}) {
  const remoteAddress = headers.cookie === undefined && headers.from === undefined ? '127.0.0.1' : ELSEWHERE;
  const answer = await server.app.inject({ method, url: `/api${url}`, payload, headers, remoteAddress });
  return { status: answer.statusCode, body: answer.json() };
}

describe.skipIf(!there)("the server of an archive's pages", () => {
  test('lets a keeper do everything, a scientist look, and nobody else in', async () => {
    const { paths } = (await ask('GET', '/docs/json')).body as { paths: Record<string, Record<string, unknown>> };
    const operations = Object.entries(paths).flatMap(([path, methods]) =>
      Object.keys(methods).map((method) => ({ method: method.toUpperCase() as 'GET' | 'POST', path })),
    );
    const ofArchive = operations.filter(({ path }) => path.startsWith('/api/archive'));
    expect(ofArchive.map(({ method, path }) => `${method} ${path}`).sort()).toEqual([
      'GET /api/archive',
      'GET /api/archive/runs/{run_id}',
      'GET /api/archive/work',
      'POST /api/archive/runs',
      'POST /api/archive/runs/{run_id}/accept',
      'POST /api/archive/runs/{run_id}/retry',
      'POST /api/archive/runs/{run_id}/revert',
    ]);
    for (const role of [null, ...DEVICE_ROLES]) {
      const cookie = role === null ? 'none=1' : `${TOKEN_COOKIE}=${addDevice(server.store, `a ${role}`, role).token}`;
      for (const { method, path } of ofArchive) {
        // No run has such a name: what gets past the guard is refused by the schema.
        const { body } = await ask(
          method,
          path.slice(4).replace('{run_id}', 'x'),
          method === 'POST' ? { no: 1 } : undefined,
          {
            cookie,
          },
        );
        const may = role === 'keeper' || (role === 'scientist' && method === 'GET');
        const refused = ['DEVICE_UNKNOWN', 'ROLE_REFUSED'].includes(body.code);
        expect([role, method, path, refused]).toEqual([role, method, path, !may]);
      }
    }
  });

  test('gives no device a role of a club, and a club gives none of an archive', async () => {
    expect((await ask('GET', '/access/me')).body.roles).toEqual(['keeper', 'scientist']);
    expect((await ask('POST', '/access/codes', { purpose: 'pair' })).body.role).toBe('keeper');
    expect(await ask('POST', '/access/codes', { purpose: 'pair', role: 'coach' })).toMatchObject({
      status: 422,
      body: { code: 'OPTION_UNREADABLE' },
    });
    const { device } = addDevice(server.store, 'a phone', 'scientist');
    const { statusCode } = await server.app.inject({
      method: 'PATCH',
      url: `/api/access/devices/${device.device_id}`,
      payload: { role: 'field' },
    });
    expect(statusCode).toBe(422);
  });

  test('counts the archive once for all who ask within a minute, and tells work at once', async () => {
    const [first, second] = await Promise.all([ask('GET', '/archive'), ask('GET', '/archive')]);
    expect(first.body).toEqual(second.body);
    expect(first.body).toMatchObject({
      name: 'Northern programme',
      norms: null,
      clubs: [{ name: 'Harrow Lane', people: 2 }],
    });
    await admit(archive.owner, 'club', 'Mill Road');
    expect((await ask('GET', '/archive')).body.counted_utc).toBe(first.body.counted_utc);
    const { status, body } = await ask('POST', '/archive/runs', { club: 'Mill Road' });
    expect([status, body.total]).toEqual([202, 0]);
    expect((await ask('GET', '/archive/work')).body.runs).toMatchObject([{ run_id: body.run_id, kind: 'reanalysis' }]);
    expect((await ask('POST', '/archive/runs', { club: 'Nowhere' })).status).toBe(404);
    expect((await ask('POST', '/archive/runs', { settings: { nonsense: 1 } })).body.code).toBe('SETTINGS_UNREADABLE');
    expect((await ask('GET', `/archive/runs/${'0'.repeat(8)}-0000-7000-8000-${'0'.repeat(12)}`)).status).toBe(404);
  });

  test('notes which device asked for what', async () => {
    const { token, device } = addDevice(server.store, 'the office', 'keeper');
    await ask('POST', '/archive/runs', { club: 'Mill Road' }, { cookie: `${TOKEN_COOKIE}=${token}` });
    const { items } = (await ask('GET', '/access/audit')).body;
    expect(items[0]).toMatchObject({
      device_id: device.device_id,
      action: 'changed',
      operation: 'POST /api/archive/runs',
    });
  });

  test('is started by one command, says where it is, is alone on its folder, and ends when it is asked to', async () => {
    const own = join(folder, 'by-command');
    const words = ['archive', 'serve', '--port', '0', '--data', own, '--archive', archive.keeperAddress];
    const start = () =>
      spawn(process.execPath, ['api/command-line/cinderlane.mjs', ...words], { stdio: ['ignore', 'pipe', 'pipe'] });
    const child = start();
    const ended = new Promise((resolve) => child.once('exit', resolve));
    const said = await new Promise<string>((resolve, reject) => {
      let text = '';
      child.stdout.on('data', (part) => {
        text += part;
        if (text.includes('\n')) resolve(text);
      });
      child.once('exit', () => reject(new Error('it ended')));
    });
    const [, address] = /^the archive's pages are at (http:\/\/127\.0\.0\.1:\d+)\n$/.exec(said)!;
    const overview = (await (await fetch(`${address}/api/archive`)).json()) as { name: string };
    expect(overview.name).toBe('Northern programme');
    const second = start();
    let refusal = '';
    second.stderr.on('data', (part) => {
      refusal += part;
    });
    expect(await new Promise((resolve) => second.once('exit', resolve))).toBe(1);
    expect(refusal).toContain(address);
    child.kill('SIGTERM');
    expect(await ended).toBe(0);
  });

  test('says that the archive is away, and finds it again when it is back', async () => {
    archive.server.run('pg_ctl', ['-m', 'immediate', 'stop']);
    expect(await ask('GET', '/archive/work')).toMatchObject({ status: 503, body: { code: 'ARCHIVE_UNREACHABLE' } });
    archive.server.start();
    expect((await ask('GET', '/archive/work')).status).toBe(200);
  });
});
