import { copyFileSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../api/store/migrate.ts';

const MIGRATIONS = new URL('../../../api/store/migrations/', import.meta.url).pathname;

test('a database of before keeps what athletes worked on, its ratings and the limits in weeks under the new names', () => {
  const folder = mkdtempSync(join(tmpdir(), 'migrations-'));
  try {
    for (const name of readdirSync(MIGRATIONS).filter((file) => file < '080')) {
      copyFileSync(join(MIGRATIONS, name), join(folder, name));
    }
    const database = new Database(':memory:');
    migrate(database, folder);
    database.pragma('foreign_keys = OFF');
    database.exec(`
      INSERT INTO athlete_points (athlete_id, point, from_date, note) VALUES (1, 'rhythm', '2026-03-01', 'longer');
      INSERT INTO repetition_ratings (repetition_id, point, rating, updated_utc) VALUES (5, 'arms', 4, '2026-03-02T10:00:00Z');
      INSERT INTO settings (name, value) VALUES ('coach',
        '{"plan_limits":{"technique_point_weeks_min":3,"technique_point_weeks_max":7,"session_max_min":35},"stop_rule":{}}');`);
    migrate(database);
    expect(database.prepare('SELECT athlete_focus_id, focus, note FROM athlete_focuses').all()).toEqual([
      { athlete_focus_id: 1, focus: 'rhythm', note: 'longer' },
    ]);
    expect(database.prepare('SELECT aspect, rating FROM repetition_ratings').all()).toEqual([
      { aspect: 'arms', rating: 4 },
    ]);
    const { value } = database.prepare("SELECT value FROM settings WHERE name = 'coach'").get() as { value: string };
    expect(JSON.parse(value).plan_limits).toEqual({ focus_weeks_min: 3, focus_weeks_max: 7, session_max_min: 35 });
    database.close();
  } finally {
    rmSync(folder, { recursive: true });
  }
});
