/** A club and its archive on a real PostgreSQL: everything goes there and comes back, and nothing else does. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { connectArchive } from '../../../api/archive/connect.ts';
import { type Comparison, compareWithArchive } from '../../../api/archive/exchange/compare.ts';
import { beginExchange, type Exchange } from '../../../api/archive/exchange/exchange.ts';
import { pull } from '../../../api/archive/exchange/pull.ts';
import { push } from '../../../api/archive/exchange/push.ts';
import { admit, type ArchiveLevel, makeArchive } from '../../../api/archive/make-archive.ts';
import { KINDS } from '../../../api/archive/rows/kinds.ts';
import { erasePerson } from '../../../api/coach/people/erase-person.ts';
import { changeConsent } from '../../../api/export/consents.ts';
import { getAthlete } from '../../../api/store/athletes.ts';
import { type PostgresServer, postgresPrograms, startPostgres } from '../../helpers/postgres.ts';
import { type ArchivedClub, makeArchivedClub, withStore } from './archived-club.ts';

const PASSPHRASE = 'cinders on the old lane';

let server: PostgresServer;
let club: ArchivedClub;
const folders: string[] = [];
const there = postgresPrograms() !== null;

beforeAll(async () => {
  if (!there) return;
  server = startPostgres();
  club = await makeArchivedClub();
  folders.push(club.folder);
});
afterAll(() => {
  server?.stop();
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

/** An archive of its own with one club let in. @returns addresses of the owner and of the club */
async function newArchive(name: string, level: ArchiveLevel): Promise<{ owner: string; club: string }> {
  server.run('createdb', [name]);
  const client = await connectArchive(server.address(name));
  await makeArchive(client, { name, level });
  const { role_name } = await admit(client, 'club', `Harrow Lane ${name}`);
  await client.end();
  return { owner: server.address(name), club: server.address(name, role_name) };
}

async function exchange<Result>(
  folder: string,
  address: string,
  work: (x: Exchange) => Promise<Result>,
  passphrase: string | null = null,
): Promise<Result> {
  return withStore(folder, async (store) => {
    const client = await connectArchive(address);
    try {
      const erase = async (id: number) => void (await erasePerson(store, id, getAthlete(store, id, true).name));
      return await work(await beginExchange(store, client, { passphrase, erase }));
    } finally {
      await client.end();
    }
  });
}

function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-club-'));
  folders.push(folder);
  return folder;
}

const apart = (found: Comparison[]) =>
  found.filter(({ only_here, only_there, different }) => only_here.length + only_there.length + different.length > 0);

async function ask<Row = Record<string, unknown>>(address: string, sql: string): Promise<Row[]> {
  const client = await connectArchive(address);
  try {
    return (await client.query(sql)).rows as Row[];
  } finally {
    await client.end();
  }
}

/** How often a word stands in the archive, in text or in bytes. */
function timesIn(name: string, word: string): number {
  const dump = server.run('pg_dump', ['--data-only', '--inserts', name]).toString('latin1');
  return dump.split(word).length + dump.split(Buffer.from(word).toString('hex')).length - 2;
}

describe.skipIf(!there)('an archive', () => {
  test('with names has everything of those who agreed, equal by checksum, a second push sends nothing, and a new machine gets it all', async () => {
    const at = await newArchive('named', 'named');
    const first = await exchange(club.folder, at.club, push);
    expect(first).toMatchObject({ repetitions: 2, stayed: 1, raw_files_left: 0 });
    const found = await exchange(club.folder, at.club, compareWithArchive);
    expect(apart(found)).toEqual([]);
    // Every table was put to the test.
    const empty = found.filter(({ equal }) => equal === 0).map(({ table }) => table);
    expect(empty).toEqual([]);
    expect(found.map(({ table }) => table)).toEqual(expect.arrayContaining(KINDS.map(({ table }) => table)));
    expect(await exchange(club.folder, at.club, push)).toMatchObject({ repetitions: 0, rows: 0 });

    const second = emptyFolder();
    await exchange(second, at.club, pull);
    expect(apart(await exchange(second, at.club, compareWithArchive))).toEqual([]);
    expect(await exchange(second, at.club, push)).toMatchObject({ repetitions: 0, rows: 0 });
    expect(await exchange(second, at.club, pull)).toMatchObject({ repetitions: 0, rows: 0, left_out: 0 });
    const names = await withStore(second, (store) => store.prepare('SELECT name FROM athletes ORDER BY name').all());
    expect(names).toEqual([{ name: 'Perpetua Vance' }, { name: 'Tamsin Oakenfold' }]);
    // Nobody who did not agree, not even in a list.
    expect(await ask(at.owner, "SELECT count(*)::int AS n FROM archive.records WHERE kind = 'group_members'")).toEqual([
      { n: 2 },
    ]);
  });

  test('of pseudonyms holds no name, note or free text, in rows or raw bytes; with the passphrase a lost machine gets them back', async () => {
    const at = await newArchive('pseudonyms', 'pseudonyms');
    await exchange(await copyOf(club.folder), at.club, push, PASSPHRASE);
    for (const word of [
      'Oakenfold',
      'OAKENFOLD',
      'Perpetua',
      'Stillwater',
      'old track',
      'hamstring',
      'left-handed',
      '2004-05-06',
    ])
      expect([word, timesIn('pseudonyms', word)]).toEqual([word, 0]);
    expect(timesIn('pseudonyms', '"birth_year": "2004"')).toBe(1);
    // Packed bytes would hide a name from the search above: the file that holds it is sealed, the two others are not.
    const raw = await ask(
      at.owner,
      'SELECT encoding, count(DISTINCT raw_sha256)::int AS n FROM archive.raw_chunks GROUP BY 1 ORDER BY 1',
    );
    expect(raw).toEqual([
      { encoding: 'gzip', n: 2 },
      { encoding: 'sealed gzip', n: 1 },
    ]);

    const lost = emptyFolder();
    await exchange(lost, at.club, pull, PASSPHRASE);
    expect(apart(await exchange(lost, at.club, compareWithArchive, PASSPHRASE))).toEqual([]);
    const [tamsin] = await withStore(lost, (store) =>
      store.prepare("SELECT * FROM athletes WHERE name LIKE 'Tam%'").all(),
    );
    expect(tamsin).toMatchObject({ name: 'Tamsin Oakenfold', birth_date: '2004-05-06', notes: 'left-handed' });

    const without = await newArchive('withheld', 'pseudonyms');
    expect(await exchange(await copyOf(club.folder), without.club, push)).toMatchObject({
      repetitions: 2,
      raw_files_left: 1,
    });
    expect(await ask(without.owner, 'SELECT count(*)::int AS n FROM archive.records WHERE hidden IS NOT NULL')).toEqual(
      [{ n: 0 }],
    );

    const stranger = emptyFolder();
    await expect(exchange(stranger, at.club, pull, 'another passphrase altogether')).rejects.toMatchObject({
      code: 'ARCHIVE_KEY_DIFFERS',
    });
    const report = await exchange(stranger, at.club, pull);
    expect(report.repetitions).toBe(2);
    const people = await withStore(stranger, (store) => store.prepare('SELECT name, birth_date FROM athletes').all());
    expect(people).toHaveLength(2);
    for (const person of people as { name: string; birth_date: string }[]) {
      expect(person.name).toMatch(/^P[A-Z2-9]{8}$/);
      expect(person.birth_date).toMatch(/^\d{4}$/);
    }
  });

  test('keeps both values where two machines changed one field, the later one in the place, and takes single changes from both', async () => {
    const at = await newArchive('conflicts', 'named');
    const [one, two] = [await copyOf(club.folder), emptyFolder()];
    await exchange(one, at.club, push);
    await exchange(two, at.club, pull);
    const change = (folder: string, sql: string) =>
      withStore(folder, (store) => void store.prepare(`UPDATE athletes SET ${sql} WHERE name LIKE 'Tam%'`).run());
    await change(one, "footwear = 'spikes', notes = 'from the first'");
    await change(two, "notes = 'from the second', stature_m = 1.71");
    await exchange(one, at.club, push);
    await exchange(two, at.club, push);
    await exchange(one, at.club, pull);
    for (const folder of [one, two]) {
      const seen = await withStore(folder, (store) => ({
        row: store.prepare("SELECT footwear, notes, stature_m FROM athletes WHERE name LIKE 'Tam%'").get(),
        conflicts: store.prepare('SELECT kind, field, kept, other FROM archive_conflicts').all(),
      }));
      expect(seen.row).toEqual({ footwear: 'spikes', notes: 'from the second', stature_m: 1.71 });
      if (folder === two)
        expect(seen.conflicts).toEqual([
          { kind: 'athletes', field: 'notes', kept: '"from the second"', other: '"from the first"' },
        ]);
      expect(apart(await exchange(folder, at.club, compareWithArchive))).toEqual([]);
      expect(await exchange(folder, at.club, push)).toMatchObject({ rows: 0, repetitions: 0 });
    }
    const kept = await ask<{ field: string; values: string }>(
      at.owner,
      `SELECT field, convert_from("values", 'UTF8') AS values FROM archive.conflicts`,
    );
    expect(kept).toEqual([{ field: 'notes', values: '{"kept":"from the second","other":"from the first"}' }]);
  });

  test('erases on every machine who was erased on one, also against a push of another, and takes nothing of them any more', async () => {
    const at = await newArchive('erasure', 'named');
    const [one, two] = [await copyOf(club.folder), emptyFolder()];
    await exchange(one, at.club, push);
    await exchange(two, at.club, pull);
    const [{ uuid }] = await withStore(one, (store) => {
      const row = store.prepare("SELECT athlete_id, uuid FROM athletes WHERE name LIKE 'Tam%'").get() as {
        athlete_id: number;
        uuid: string;
      };
      return erasePerson(store, row.athlete_id, 'Tamsin Oakenfold').then(() => [row]);
    });
    await exchange(one, at.club, push);
    expect(timesIn('erasure', uuid)).toBe(1);
    expect(
      await ask(
        at.owner,
        'SELECT (SELECT count(*) FROM archive.recordings)::int + (SELECT count(*) FROM archive.raw_files)::int AS n',
      ),
    ).toEqual(
      // What is left is the file of the other athlete's failed import.
      [{ n: 1 }],
    );
    // A machine that still has the person, and would send a change.
    await withStore(
      two,
      (store) => void store.prepare("UPDATE athletes SET notes = 'late' WHERE name LIKE 'Tam%'").run(),
    );
    await exchange(two, at.club, push);
    expect(await withStore(two, (store) => store.prepare('SELECT name FROM athletes').all())).toEqual([
      { name: 'Perpetua Vance' },
    ]);
    expect(timesIn('erasure', uuid)).toBe(1);
    // The archive itself refuses, whoever writes.
    await expect(
      ask(
        at.owner,
        `INSERT INTO archive.records SELECT club_id, 'athletes', person_id, person_id, '{}', NULL, '{}', false, person_id, 1 FROM archive.erasures`,
      ),
    ).rejects.toMatchObject({ code: 'AR001' });
  });

  test('gives back what somebody does not agree to any longer, tells the other machine, and takes it again once they do', async () => {
    const at = await newArchive('consent', 'named');
    const [one, two] = [await copyOf(club.folder), emptyFolder()];
    await exchange(one, at.club, push);
    await exchange(two, at.club, pull);
    const perpetua = (folder: string, work: (store: Parameters<typeof changeConsent>[0], id: number) => unknown) =>
      withStore(folder, (store) => {
        const row = store.prepare("SELECT athlete_id FROM athletes WHERE name LIKE 'Perp%'").get() as {
          athlete_id: number;
        };
        return work(store, row.athlete_id);
      });
    const sent = timesIn('consent', 'Perpetua');
    expect(sent).toBeGreaterThan(0);
    await perpetua(one, (store, id) => changeConsent(store, id, { status: 'withdrawn', status_date: '2026-04-01' }));
    await exchange(one, at.club, push);
    expect(timesIn('consent', 'Perpetua')).toBe(0);
    await exchange(two, at.club, push);
    expect(timesIn('consent', 'Perpetua')).toBe(0);
    const status = await perpetua(two, (store, id) =>
      store.prepare('SELECT status FROM research_consents WHERE athlete_id = ?').get(id),
    );
    expect(status).toEqual({ status: 'withdrawn' });
    await perpetua(two, (store, id) => changeConsent(store, id, { status: 'given', status_date: '2026-05-01' }));
    await exchange(two, at.club, push);
    expect(timesIn('consent', 'Perpetua')).toBe(sent);
    expect(apart(await exchange(two, at.club, compareWithArchive))).toEqual([]);
  });

  test('shows one club nothing of another, a scientist nothing hidden, and lets neither write what is not theirs', async () => {
    const at = await newArchive('rights', 'named');
    await exchange(await copyOf(club.folder), at.club, push);
    const client = await connectArchive(at.owner);
    const other = server.address('rights', (await admit(client, 'club', 'Mill Road')).role_name);
    const scientist = server.address('rights', (await admit(client, 'scientist', 'Dr Ash')).role_name);
    const [{ club_id }] = await ask<{ club_id: string }>(
      at.owner,
      "SELECT club_id FROM archive.clubs WHERE name LIKE 'Harrow%'",
    );
    await client.end();
    const tables = await ask<{ name: string }>(
      at.owner,
      "SELECT table_name AS name FROM information_schema.columns WHERE table_schema = 'archive' AND column_name = 'club_id'",
    );
    expect(tables.length).toBeGreaterThan(14);
    for (const { name } of tables.filter((table) => !table.name.startsWith('contacts_'))) {
      const theirs = await ask<{ n: number }>(
        other,
        `SELECT count(*)::int AS n FROM archive.${name} WHERE club_id = '${club_id}'`,
      );
      expect([name, theirs]).toEqual([name, [{ n: 0 }]]);
    }
    // A partition by its own name is nobody's.
    await expect(ask(other, 'SELECT count(*) FROM archive.contacts_2026')).rejects.toMatchObject({ code: '42501' });
    await expect(
      ask(other, `INSERT INTO archive.erasures VALUES ('${club_id}', '${club_id}', '')`),
    ).rejects.toMatchObject({ code: '42501' });
    expect(await ask(other, `DELETE FROM archive.records WHERE club_id = '${club_id}' RETURNING 1`)).toEqual([]);
    expect(await ask(scientist, 'SELECT count(*)::int AS n FROM archive.people')).toEqual([{ n: 2 }]);
    expect(
      (await ask<{ n: number }>(scientist, 'SELECT count(*)::int AS n FROM archive.contacts'))[0].n,
    ).toBeGreaterThan(20);
    for (const sql of [
      'SELECT hidden FROM archive.records',
      'SELECT * FROM archive.raw_chunks',
      'SELECT hidden FROM archive.recordings',
      'DELETE FROM archive.analyses',
    ])
      await expect(ask(scientist, sql)).rejects.toMatchObject({ code: '42501' });
    expect(
      await ask(scientist, "SELECT count(*)::int AS n FROM archive.records WHERE kind = 'athlete_returns'"),
    ).toEqual([{ n: 0 }]);
    // What a club sends can be no other's.
    await expect(exchange(await copyOf(club.folder), other, (x) => push({ ...x, club_id }))).rejects.toThrow();
  });
});

/** The same club on a disk of its own, as before its first exchange. */
async function copyOf(folder: string): Promise<string> {
  const copy = emptyFolder();
  await withStore(folder, (store) => store.database.backup(join(copy, 'cinderlane.sqlite')));
  await withStore(copy, (store) => {
    for (const table of ['archive_link', 'archive_rows', 'archive_stamps', 'archive_conflicts', 'archive_withdrawals'])
      store.prepare(`DELETE FROM ${table}`).run();
  });
  return copy;
}
