import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Pseudonyms } from '../../../api/export/pseudonyms.ts';
import { createAthlete } from '../../../api/store/athletes.ts';
import { createSession } from '../../../api/store/sessions.ts';
import { Store } from '../../../api/store/store.ts';

const MIGRATIONS = new URL('../../../api/store/migrations/', import.meta.url);
let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'cinderlane-pseudonyms-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('pseudonyms', () => {
  it('stay the same in one database, and differ in another that has the same athletes and sessions', () => {
    const namesIn = (file: string) => {
      const store = Store.open(join(folder, file));
      const { athlete_id } = createAthlete(store, { name: 'Ann Adder' });
      const { session_id } = createSession(store, { session_date: '2026-03-02' });
      const read = () => {
        const names = new Pseudonyms(store);
        return [names.athlete(athlete_id), names.session(session_id, athlete_id), names.dayShift(athlete_id)];
      };
      const first = read();
      expect(read()).toEqual(first);
      store.close();
      return first;
    };
    const [one, other] = [namesIn('one.sqlite'), namesIn('other.sqlite')];
    expect(one[0]).toMatch(/^P[A-Z2-9]{8}$/);
    expect(one[1]).toMatch(/^S[A-Z2-9]{8}$/);
    expect([one[0], one[1]]).not.toEqual([other[0], other[1]]);
  });

  it('that were given out before they were random are kept by the migration; others are made anew', () => {
    const file = join(folder, 'cinderlane.sqlite');
    const old = new Database(file);
    old.exec('CREATE TABLE migrations (name TEXT PRIMARY KEY, applied_utc TEXT NOT NULL) STRICT');
    for (const name of readdirSync(MIGRATIONS)
      .sort()
      .filter((name) => name < '093')) {
      old.exec(readFileSync(new URL(name, MIGRATIONS), 'utf8'));
      old.prepare('INSERT INTO migrations VALUES (?, ?)').run(name, '2026-01-01T00:00:00Z');
    }
    const now = '2026-01-01T00:00:00Z';
    for (const id of [3, 4])
      old
        .prepare('INSERT INTO athletes (athlete_id, name, created_utc, updated_utc) VALUES (?, ?, ?, ?)')
        .run(id, `a${id}`, now, now);
    old
      .prepare(
        "INSERT INTO sessions (session_id, session_date, created_utc, updated_utc) VALUES (5, '2026-01-01', ?, ?)",
      )
      .run(now, now);
    for (const id of [3, 4])
      old
        .prepare(
          'INSERT INTO repetitions (repetition_id, session_id, athlete_id, set_number, order_number, state, created_utc, updated_utc) VALUES (?, 5, ?, 1, 1, ?, ?, ?)',
        )
        .run(id, id, 'planned', now, now);
    old.prepare('INSERT INTO pseudonym_key VALUES (1, ?)').run(Buffer.alloc(32, 7));
    old.prepare("INSERT INTO research_exports VALUES (1, ?, '{}', 1, 0, 1, 1, '0')").run(now);
    old.prepare('INSERT INTO research_export_athletes VALUES (1, 3)').run();
    old.close();

    const store = Store.open(file);
    const names = new Pseudonyms(store);
    // Snapshot of the former way: HMAC-SHA-256 with the key of 32 sevens.
    expect([names.athlete(3), names.session(5, 3), names.dayShift(3)]).toEqual(['PPLUD2TUK', 'S9NW2G82R', 323]);
    expect(store.prepare('SELECT athlete_id FROM athlete_pseudonyms').all()).toEqual([{ athlete_id: 3 }]);
    expect(names.athlete(4)).toMatch(/^P/);
    store.prepare('DELETE FROM athletes WHERE athlete_id = 3').run();
    expect(store.prepare('SELECT count(*) AS n FROM session_pseudonyms').get()).toEqual({ n: 0 });
    store.close();
  });
});
