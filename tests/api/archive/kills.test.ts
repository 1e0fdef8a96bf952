/** The real command, killed while it sends and while it brings: whatever a kill leaves, the next one ends it, equal to the last byte. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { connectArchive } from '../../../api/archive/connect.ts';
import { makeRepetition } from '../coach/make-club.ts';
import { type PostgresServer, postgresPrograms, startPostgres } from '../../helpers/postgres.ts';
import { uniform } from '../../helpers/random.ts';
import { type ArchivedClub, makeArchivedClub, withStore } from './archived-club.ts';

const MORE = 60;
const there = postgresPrograms() !== null;
let server: PostgresServer;
let club: ArchivedClub;
const empty = mkdtempSync(join(tmpdir(), 'cinderlane-club-'));

beforeAll(async () => {
  if (!there) return;
  server = startPostgres();
  server.run('createdb', ['programme']);
  club = await makeArchivedClub();
  await withStore(club.folder, (store) =>
    store.transaction(() => {
      for (let i = 0; i < MORE; i++)
        makeRepetition(store, club.session_id, club.agreed[i % 2], { contact_time_ms: 120 + i / 10 });
    }),
  );
});
afterAll(() => {
  server?.stop();
  for (const folder of [club?.folder, empty]) if (folder) rmSync(folder, { recursive: true, force: true });
});

const PROGRAM = ['api/command-line/cinderlane.mjs', 'archive'];
const run = (words: string[], env = {}) =>
  spawnSync(process.execPath, [...PROGRAM, ...words], { encoding: 'utf8', env: { ...process.env, LANG: 'C', ...env } });

async function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  await new Promise((resolve) => child.once('exit', resolve));
}

describe.skipIf(!there)('a killed exchange', () => {
  let address: string;
  const env = () => ({ CINDERLANE_ARCHIVE: address });

  test('is set up by the commands, which say what a club needs', () => {
    const owner = server.address('programme');
    expect(run(['push', '--archive', owner, '--data', club.folder])).toMatchObject({ status: 1 });
    expect(run(['init', '--archive', owner, '--level', 'named'])).toMatchObject({ status: 0, stderr: '' });
    const admitted = run(['admit', '--archive', owner, '--as', 'club', '--name', 'Harrow Lane A.C.']);
    const [, url, password] = /address {3}(\S+)\npassword {2}(\S+)\n/.exec(admitted.stdout)!;
    expect(password.length).toBeGreaterThan(30);
    expect(new URL(url).searchParams.get('user')).toBe('club_harrow_lane_a_c');
    address = url;
    expect(run(['admit', '--archive', owner, '--as', 'club', '--name', 'harrow lane a c']).stderr).toContain(
      'ARCHIVE_NAME_TAKEN',
    );
    expect(run(['dance'], env())).toMatchObject({ status: 2 });
  });

  test.each(['push', 'pull'])('%s: nothing is lost, nothing is double, all is equal by checksum', async (action) => {
    const folder = action === 'push' ? club.folder : empty;
    const random = uniform(action === 'push' ? 3 : 4);
    const watched = await connectArchive(server.address('programme'));
    const arrived = async () =>
      action === 'push'
        ? (await watched.query('SELECT count(*)::int AS n FROM archive.analyses')).rows[0].n
        : withStore(folder, (store) => (store.prepare('SELECT count(*) AS n FROM analyses').get() as { n: number }).n);
    for (const part of [0.15, 0.6]) {
      const child = spawn(process.execPath, [...PROGRAM, action, '--data', folder], {
        env: { ...process.env, ...env() },
        stdio: 'ignore',
      });
      // Somewhere in its part of the work, wherever that is in a transaction.
      const after = (part + 0.2 * random()) * MORE;
      while ((await arrived()) < after && child.exitCode === null)
        await new Promise((resolve) => setImmediate(resolve));
      expect(child.exitCode).toBe(null);
      child.kill('SIGKILL');
      await ended(child);
    }
    expect(run([action, '--data', folder], env())).toMatchObject({ status: 0, stderr: '' });
    const status = run(['status', '--check', '--data', folder], env());
    expect(status.stdout).toContain('everything that may leave is there, and equal');
    expect(status.stdout).toContain(`analyses and contacts: ${MORE + 2} equal`);
    expect(run([action, '--data', folder], env()).stdout).toMatch(/0 repetitions with what they rest on, 0 other rows/);
    await watched.end();
  });
});
