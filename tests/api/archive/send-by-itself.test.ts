/** A server that sends by itself: what it tells of a network that comes and goes, and the real one with a real archive. */
import { rmSync } from 'node:fs';
import { expect, test } from 'vitest';
import { connectArchive } from '../../../api/archive/connect.ts';
import { admit, makeArchive } from '../../../api/archive/make-archive.ts';
import { SendingRound } from '../../../api/archive/send-by-itself.ts';
import { postgresPrograms, startPostgres } from '../../helpers/postgres.ts';
import { ServerProcess } from '../../helpers/server-process.ts';
import { makeArchivedClub } from './archived-club.ts';

test('what fails is told once, what works again once, and one sending at a time is under way', async () => {
  const told: string[] = [];
  let answer: () => Promise<void> = async () => {};
  const round = new SendingRound(
    { every_minutes: 1, send: () => answer(), tell: (line) => told.push(line) },
    new AbortController().signal,
  );
  await round.run();
  expect(told).toEqual([]);
  answer = async () => {
    throw new Error('no network');
  };
  for (let i = 0; i < 3; i++) await round.run();
  answer = async () => {
    throw new Error('wrong password');
  };
  await round.run();
  answer = async () => {};
  for (let i = 0; i < 2; i++) await round.run();
  expect(told).toEqual([
    'archive: no network',
    'archive: wrong password',
    'archive: reached again, everything is sent',
  ]);

  let begun = 0;
  let finish = () => {};
  answer = () => {
    begun += 1;
    return new Promise((resolve) => {
      finish = resolve;
    });
  };
  const both = [round.run(), round.run()];
  finish();
  await Promise.all(both);
  expect(begun).toBe(1);
});

test.skipIf(postgresPrograms() === null)(
  'the server sends what it has when it starts, and answers meanwhile',
  async () => {
    const postgres = startPostgres();
    const club = await makeArchivedClub();
    try {
      postgres.run('createdb', ['programme']);
      const owner = await connectArchive(postgres.address('programme'));
      await makeArchive(owner, { level: 'named' });
      const { role_name } = await admit(owner, 'club', 'Harrow Lane');
      const server = await ServerProcess.start(club.folder, {}, [
        '--archive',
        postgres.address('programme', role_name),
      ]);
      const limit = performance.now() + 120_000;
      let sent = 0;
      while (sent < 2 && performance.now() < limit) {
        sent = (await owner.query('SELECT count(*)::int AS n FROM archive.analyses')).rows[0].n;
        expect((await fetch(`${server.address}/api/health`)).status).toBe(200);
      }
      expect(sent).toBe(2);
      await server.close();
      await owner.end();
    } finally {
      postgres.stop();
      rmSync(club.folder, { recursive: true, force: true });
    }
  },
);
