/** Identifiers that are unique everywhere: their form, who gets one, and what a migration gives to what was there before. */
import { readdirSync, readFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../api/store/migrate.ts';
import { Store } from '../../../api/store/store.ts';
import { nameUuid, uuid7 } from '../../../api/store/uuid.ts';

const MIGRATIONS = new URL('../../../api/store/migrations/', import.meta.url);

test('both versions are those of the printed examples', () => {
  // RFC 9562, appendix A.6: 2022-02-22T14:22:22-05:00, rand_a CC3, rand_b 18C4DC0C0C07398F.
  const chance = Buffer.from('0cc318c4dc0c0c07398f', 'hex');
  expect(uuid7(Date.parse('2022-02-22T19:22:22Z'), chance)).toBe('017f22e2-79b0-7cc3-98c4-dc0c0c07398f');
  // RFC 9562, appendix A.4: www.example.com in the name space of domain names.
  expect(nameUuid('6ba7b810-9dad-11d1-80b4-00c04fd430c8', 'www.example.com')).toBe(
    '2ed6657d-e927-568b-95e1-2665a8aea6a2',
  );
});

test('ten thousand of one moment differ, and those of later moments sort behind', () => {
  const made = Array.from({ length: 10_000 }, () => uuid7(1_700_000_000_000));
  expect(new Set(made).size).toBe(10_000);
  expect(made.every((one) => one < uuid7(1_700_000_000_001))).toBe(true);
});

test('every table with the column gives one to each new row, by whatever way it came, and none twice', () => {
  const store = Store.open(':memory:');
  const tables = store
    .prepare(
      "SELECT m.name FROM sqlite_master m JOIN pragma_table_info(m.name) c ON c.name = 'uuid' WHERE m.type = 'table'",
    )
    .all() as { name: string }[];
  const named = tables.map(({ name }) => name).filter((name) => name !== 'erasures');
  expect(named).toEqual(
    expect.arrayContaining(['athletes', 'sessions', 'repetitions', 'recordings', 'analyses', 'sprint_tests']),
  );
  const triggers = store
    .prepare("SELECT tbl_name FROM sqlite_master WHERE type = 'trigger' AND name LIKE '%_get_uuid'")
    .all();
  expect(triggers.map((row) => (row as { tbl_name: string }).tbl_name).sort()).toEqual(named.sort());
  store
    .prepare("INSERT INTO layouts (name, fingerprint, layout, created_utc, updated_utc) VALUES ('a', '', '{}', '', '')")
    .run();
  const { uuid } = store.prepare('SELECT uuid FROM layouts').get() as { uuid: string };
  expect(uuid).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  expect(() =>
    store
      .prepare(
        "INSERT INTO layouts (name, fingerprint, layout, created_utc, updated_utc, uuid) VALUES ('b', '', '{}', '', '', ?)",
      )
      .run(uuid),
  ).toThrow('UNIQUE');
  store.close();
});

test('rows of before get one that tells when they were made', () => {
  const database = new Database(':memory:');
  database.exec('CREATE TABLE migrations (name TEXT PRIMARY KEY, applied_utc TEXT NOT NULL) STRICT');
  const now = '2025-05-05T10:00:00.000Z';
  for (const name of readdirSync(MIGRATIONS).sort().slice(0, 1)) {
    database.exec(readFileSync(new URL(name, MIGRATIONS), 'utf8'));
    database.prepare('INSERT INTO migrations VALUES (?, ?)').run(name, now);
  }
  const add = database.prepare('INSERT INTO athletes (name, created_utc, updated_utc) VALUES (?, ?, ?)');
  for (const name of ['Ida Fenn', 'Jon Marl']) add.run(name, now, now);
  migrate(database);
  const made = database.prepare('SELECT uuid FROM athletes ORDER BY athlete_id').all() as { uuid: string }[];
  const moment = uuid7(Date.parse(now)).slice(0, 13);
  expect(made.map(({ uuid }) => uuid.slice(0, 13))).toEqual([moment, moment]);
  expect(made[0].uuid).not.toBe(made[1].uuid);
  database.close();
});
