/** Keeping an archive: backups by PostgreSQL's own tools, a new shape while clubs send, and what a keeper is told. */
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { connectArchive } from '../../../api/archive/connect.ts';
import { compareWithArchive } from '../../../api/archive/exchange/compare.ts';
import { beginExchange, type Exchange } from '../../../api/archive/exchange/exchange.ts';
import { pull } from '../../../api/archive/exchange/pull.ts';
import { push } from '../../../api/archive/exchange/push.ts';
import { admit, makeArchive } from '../../../api/archive/make-archive.ts';
import { overviewOf } from '../../../api/archive/serve/overview.ts';
import { upgradeSchema } from '../../../api/archive/upgrade-schema.ts';
import { type PostgresServer, postgresPrograms, startPostgres } from '../../helpers/postgres.ts';
import { makeRepetition } from '../coach/make-club.ts';
import { type ArchivedClub, makeArchivedClub, withStore } from './archived-club.ts';

const there = postgresPrograms() !== null;
const SCHEMA = fileURLToPath(new URL('../../../api/archive/schema/', import.meta.url));
const second = mkdtempSync(join(tmpdir(), 'cinderlane-club-'));
let server: PostgresServer;
let club: ArchivedClub;
let role: string;

beforeAll(async () => {
  if (!there) return;
  server = startPostgres();
  server.run('createdb', ['programme']);
  const owner = await connectArchive(server.address('programme'));
  await makeArchive(owner, { level: 'named', name: 'Northern programme' });
  role = (await admit(owner, 'club', 'Harrow Lane')).role_name;
  await owner.end();
  club = await makeArchivedClub();
  await exchange('programme', club.folder, push);
});
afterAll(() => {
  server?.stop();
  for (const folder of [club?.folder, second]) if (folder) rmSync(folder, { recursive: true, force: true });
});

async function exchange<Result>(
  database: string,
  folder: string,
  what: (x: Exchange) => Promise<Result>,
): Promise<Result> {
  return withStore(folder, async (store) => {
    const client = await connectArchive(server.address(database, role));
    try {
      return await what(await beginExchange(store, client, { passphrase: null, erase: async () => {} }));
    } finally {
      await client.end();
    }
  });
}

const differing = async (database: string, folder: string) =>
  (await exchange(database, folder, compareWithArchive)).flatMap((one) => [
    ...one.only_here,
    ...one.only_there,
    ...one.different,
  ]);

describe.skipIf(!there)('an archive', () => {
  test('that is restored by pg_restore from an older backup has what it had, and gets from the clubs what came since', async () => {
    const file = server.run('pg_dump', ['--format=custom', 'programme']);
    await exchange('programme', second, pull);
    await withStore(club.folder, (store) => {
      makeRepetition(store, club.session_id, club.agreed[0], { contact_time_ms: 117 });
      store.prepare("UPDATE athletes SET notes = 'after the backup' WHERE name LIKE 'Tam%'").run();
    });
    await exchange('programme', club.folder, push);
    await exchange('programme', second, pull);

    server.run('createdb', ['restored']);
    server.run('pg_restore', ['--dbname=restored', '--exit-on-error'], file);
    expect((await differing('restored', club.folder)).length).toBeGreaterThan(1);
    const owner = await connectArchive(server.address('restored'));
    await makeArchive(owner, { restored: true });
    await owner.end();
    await exchange('restored', club.folder, push);
    expect(await differing('restored', club.folder)).toEqual([]);
    await exchange('restored', second, pull);
    expect(await differing('restored', second)).toEqual([]);
  });

  test('gets a new shape while a club writes: whoever writes goes on, and the change comes when it can', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'cinderlane-schema-'));
    cpSync(SCHEMA, folder, { recursive: true });
    writeFileSync(join(folder, '900-later.sql'), 'ALTER TABLE archive.contacts ADD COLUMN later double precision;');
    const [holder, writer, owner] = await Promise.all([1, 2, 3].map(() => connectArchive(server.address('programme'))));
    const touch = `UPDATE archive.contacts SET confidence = confidence WHERE step = 1`;
    await holder.query('BEGIN');
    await holder.query(touch);
    const upgraded = upgradeSchema(owner, folder);
    // The change waits for the one that holds the table; another one must not wait behind it for long.
    for (let i = 0; i < 3; i++)
      await writer.query('INSERT INTO archive.contacts SELECT * FROM archive.contacts WHERE false');
    const { rows } = await writer.query("SELECT name FROM archive.migrations WHERE name = '900-later.sql'");
    expect(rows).toEqual([]);
    await holder.query('COMMIT');
    expect(await upgraded).toEqual(['900-later.sql']);
    expect(await upgradeSchema(owner, folder)).toEqual([]);
    // A club of a version that does not know the new shape is told so, and nothing is touched.
    await expect(exchange('programme', club.folder, push)).rejects.toMatchObject({ code: 'ARCHIVE_NEWER' });
    await owner.query("DELETE FROM archive.migrations WHERE name = '900-later.sql'");
    await owner.query('ALTER TABLE archive.contacts DROP COLUMN later');
    await Promise.all([holder, writer, owner].map((client) => client.end()));
    rmSync(folder, { recursive: true });
  });

  test('tells its keeper who sent when and how much', async () => {
    const owner = await connectArchive(server.address('programme'));
    await admit(owner, 'club', 'Mill Road');
    const keeper = await connectArchive(
      server.address('programme', (await admit(owner, 'keeper', 'Ada Finch')).role_name),
    );
    const { name, level, clubs, size_bytes } = await overviewOf(keeper);
    expect([name, level]).toEqual(['Northern programme', 'named']);
    expect(size_bytes).toBeGreaterThan(1e6);
    const { n } = await withStore(
      club.folder,
      (store) =>
        store
          .prepare(
            `SELECT count(*) AS n FROM contacts JOIN analyses USING (analysis_id) JOIN repetitions USING (repetition_id) WHERE athlete_id <> ?`,
          )
          .get(club.silent) as { n: number },
    );
    expect(clubs).toMatchObject([
      { name: 'Harrow Lane', machines: 2, people: 2, repetitions: 3, contacts: n, recordings: 2, erasures: 0 },
      { name: 'Mill Road', machines: 0, people: 0, last_push_utc: null },
    ]);
    expect(clubs[0].bytes).toBeGreaterThan(10_000);
    await Promise.all([owner, keeper].map((client) => client.end()));
  });
});
