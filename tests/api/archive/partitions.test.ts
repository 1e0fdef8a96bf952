/** Partitions of the archive's contacts: made without anybody waiting, once, and ahead of time. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { connectArchive } from '../../../api/archive/connect.ts';
import { push } from '../../../api/archive/exchange/push.ts';
import { countWaiting } from '../../../api/archive/exchange/count-waiting.ts';
import { postgresPrograms } from '../../helpers/postgres.ts';
import { makeRepetition } from '../coach/make-club.ts';
import { type ArchivedClub, makeArchivedClub, withStore } from './archived-club.ts';
import { type KeptArchive, keepArchive } from './kept-archive.ts';
import { rmSync } from 'node:fs';

const there = postgresPrograms() !== null;
let club: ArchivedClub;
let archive: KeptArchive;

beforeAll(async () => {
  if (!there) return;
  club = await makeArchivedClub();
  archive = await keepArchive(club.folder);
});
afterAll(async () => {
  await archive?.close();
  if (club) rmSync(club.folder, { recursive: true, force: true });
});

const connect = () => connectArchive(archive.server.address('programme'));
async function partitions(): Promise<string[]> {
  const { rows } = await archive.owner.query<{ name: string }>(
    "SELECT c.relname AS name FROM pg_inherits JOIN pg_class c ON c.oid = inhrelid WHERE inhparent = 'archive.contacts'::regclass ORDER BY 1",
  );
  return rows.map(({ name }) => name);
}

describe.skipIf(!there)('partitions of contacts', () => {
  test('of this year and the next are there before anybody needs them', async () => {
    const year = new Date().getUTCFullYear();
    expect(await partitions()).toEqual(expect.arrayContaining([`contacts_${year}`, `contacts_${year + 1}`]));
  });

  test('are made while somebody reads and somebody writes, neither of whom waits or is waited for', async () => {
    const [reader, writer, maker] = await Promise.all([connect(), connect(), connect()]);
    await reader.query('BEGIN');
    const { rows } = await reader.query<{ n: number }>('SELECT count(*)::int AS n FROM archive.contacts');
    expect(rows[0].n).toBeGreaterThan(10);
    await writer.query('BEGIN');
    await writer.query('UPDATE archive.contacts SET confidence = confidence WHERE step = 1');
    // It would be refused at once where it had to wait.
    await maker.query("SET lock_timeout = '1ms'");
    await maker.query('SELECT archive.make_partition(2031)');
    await writer.query('UPDATE archive.contacts SET confidence = confidence WHERE step = 2');
    await Promise.all([reader.query('COMMIT'), writer.query('COMMIT')]);
    expect(await partitions()).toContain('contacts_2031');
    await Promise.all([reader, writer, maker].map((client) => client.end()));
  });

  test('are made once where several ask at the same time, and take contacts and their keys', async () => {
    const askers = await Promise.all([1, 2, 3, 4].map(connect));
    await Promise.all(askers.map((client) => client.query('SELECT archive.make_partition(2032)')));
    await Promise.all(askers.map((client) => client.end()));
    expect((await partitions()).filter((name) => name === 'contacts_2032')).toHaveLength(1);
    const copy = `INSERT INTO archive.contacts SELECT (json_populate_record(c, '{"day": "2032-05-06"}')).* FROM archive.contacts c WHERE step = 1`;
    const { rowCount } = await archive.owner.query(copy);
    expect(rowCount).toBeGreaterThan(0);
    const { rows } = await archive.owner.query('SELECT count(*)::int AS n FROM archive.contacts_2032');
    expect(rows[0].n).toBe(rowCount);
    await expect(archive.owner.query(copy)).rejects.toMatchObject({ code: '23505' });
    await archive.owner.query("DELETE FROM archive.contacts WHERE day = '2032-05-06'");
    await expect(archive.owner.query('SELECT archive.make_partition(3000)')).rejects.toThrow('no year: 3000');
  });
});

describe.skipIf(!there)('what waits to be sent', () => {
  test('is counted as the next push will count it, and is nothing after it', async () => {
    expect(await archive.exchange(club.folder, countWaiting)).toEqual({ repetitions: 0, rows: 0 });
    await withStore(club.folder, (store) => {
      makeRepetition(store, club.session_id, club.agreed[1], { contact_time_ms: 119 });
      makeRepetition(store, club.session_id, club.silent, { contact_time_ms: 119 });
      store.prepare("UPDATE athletes SET notes = 'slept badly' WHERE athlete_id = ?").run(club.agreed[0]);
      store.prepare('DELETE FROM strength_records').run();
    });
    const waiting = await archive.exchange(club.folder, countWaiting);
    expect(waiting).toEqual({ repetitions: 1, rows: 2 });
    expect(await archive.exchange(club.folder, countWaiting)).toEqual(waiting);
    expect(await archive.exchange(club.folder, push)).toMatchObject(waiting);
    expect(await archive.exchange(club.folder, countWaiting)).toEqual({ repetitions: 0, rows: 0 });
  });
});
