import { columnNames } from '../../api/store/column-names.ts';
import { uniform } from '../helpers/random.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';
import type { TestApi } from '../helpers/test-api.ts';

/**
 * Fills a store with a season: one invented sprint goes in through the API and is copied with small random changes, so that
 * the store has the size and the spread of a real one. Two sessions a week, every athlete in each, one repetition an effort.
 */
export async function copySeason(
  { call, store, import: send }: TestApi,
  { athletes, sessions, efforts }: { athletes: number; sessions: number; efforts: number[] },
): Promise<void> {
  const random = uniform(1);
  const ids: number[] = [];
  for (let a = 1; a <= athletes; a++)
    ids.push((await call('POST', '/athletes', { name: `Athlete ${a}` })).body.athlete_id);
  const { body: group } = await call('POST', '/groups', { name: 'Club', athlete_ids: ids });
  const dates = Array.from({ length: sessions }, (_, i) =>
    new Date(Date.UTC(2025, 10, 24) + 86_400_000 * (3.5 * i)).toISOString().slice(0, 10),
  );
  for (const session_date of dates) await call('POST', '/sessions', { session_date, group_id: group.group_id });
  const { left, right } = sprintFiles();
  await send(
    { athlete_id: ids[0], session_id: 1, mounting: 'foot', effort_percent: 100, course: '30m', time: '5.3s' },
    { left, right },
  );
  const { database } = store;
  const own = (table: string, without: string[]) => columnNames(store, table).filter((name) => !without.includes(name));
  const repetitionColumns = own('repetitions', [
    'repetition_id',
    'uuid',
    'session_id',
    'athlete_id',
    'order_number',
    'effort_percent',
    'analysis_id',
  ]);
  const repetition = database.prepare(
    `INSERT INTO repetitions (session_id, athlete_id, order_number, effort_percent, ${repetitionColumns})
     SELECT ?, ?, ?, ?, ${repetitionColumns} FROM repetitions WHERE repetition_id = 1`,
  );
  const analysisColumns = own('analyses', ['analysis_id', 'uuid', 'repetition_id', 'contact_time_ms']);
  const analysis = database.prepare(
    `INSERT INTO analyses (repetition_id, contact_time_ms, ${analysisColumns})
     SELECT ?, contact_time_ms * ?, ${analysisColumns} FROM analyses WHERE analysis_id = 1`,
  );
  const contactColumns = own('contacts', ['analysis_id', 'contact_time_ms', 'step_length_m']);
  const contacts = database.prepare(
    `INSERT INTO contacts (analysis_id, contact_time_ms, step_length_m, ${contactColumns})
     SELECT ?, contact_time_ms * ?, step_length_m * ?, ${contactColumns} FROM contacts WHERE analysis_id = 1`,
  );
  const link = database.prepare('INSERT INTO repetition_recordings VALUES (?, 1), (?, 2)');
  const finish = database.prepare('UPDATE repetitions SET analysis_id = ? WHERE repetition_id = ?');
  store.transaction(() => {
    dates.forEach((_, s) => {
      efforts.forEach((effort, r) => {
        for (const athleteId of ids) {
          const id = repetition.run(s + 1, athleteId, r + 1, effort).lastInsertRowid;
          const change = 1 + 0.04 * (random() - 0.5);
          const analysisId = analysis.run(id, change).lastInsertRowid;
          contacts.run(analysisId, change, 1 + 0.04 * (random() - 0.5));
          link.run(id, id);
          finish.run(analysisId, id);
        }
      });
    });
  });
}
