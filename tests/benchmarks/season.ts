/**
 * Answering times with a year of a club: 30 athletes, two sessions a week, six repetitions each, some half a million contacts.
 * `npm run bench:season [-- ATHLETES WEEKS]`. One invented sprint is stored through the API and copied with small random
 * changes, so that the store has the size and the spread of a real one. Exit code 1 when a page's data takes above 100 ms.
 */
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { sprintFiles } from '../helpers/sprint-files.ts';
import { openTestApi, type TestApi } from '../helpers/test-api.ts';

const ATHLETES = Number(process.argv[2] ?? 30);
const WEEKS = Number(process.argv[3] ?? 52);
const EFFORTS = [50, 75, 90, 100, 100, 100];
const TARGET_MS = 100;

const folder = mkdtempSync(join(tmpdir(), 'cinderlane-season-'));
const api = await openTestApi(folder);
await makeSeason(api);
const count = (table: string) => (api.store.prepare(`SELECT count(*) AS n FROM ${table}`).get() as { n: number }).n;
process.stdout.write(
  `${count('athletes')} athletes, ${count('sessions')} sessions, ${count('repetitions')} repetitions, ${count('contacts')} contacts, ` +
    `${(statSync(join(folder, 'cinderlane.sqlite')).size / 1e6).toFixed(0)} MB, load ${loadavg()[0].toFixed(1)}\n`,
);
const lastSession = count('sessions');
const { id: lastRepetition } = api.store
  .prepare('SELECT max(repetition_id) AS id FROM repetitions WHERE session_id = ?')
  .get(lastSession) as { id: number };

let slow = 0;
for (const path of [
  '/athletes',
  '/groups/1',
  '/sessions',
  '/sessions?athlete_id=5',
  `/sessions/${lastSession}`,
  '/repetitions?athlete_id=5',
  `/repetitions/${lastRepetition}`,
  `/repetitions/${lastRepetition}/profile`,
  `/repetitions/${lastRepetition}/signal?side=left&max_points=3000`,
  `/repetitions/${lastRepetition}/steps.csv`,
  `/coach/sessions/${lastSession}/field`,
  '/coach/athletes/5',
]) {
  const times: number[] = [];
  let bytes = 0;
  let status = 0;
  for (let i = 0; i < 9; i++) {
    const start = performance.now();
    const answer = await api.app.inject({ method: 'GET', url: `/api${path}` });
    times.push(performance.now() - start);
    bytes = answer.rawPayload.length;
    status = answer.statusCode;
  }
  const first = times[0];
  const typical = [...times].sort((a, b) => a - b)[4];
  if (status === 200 && typical > TARGET_MS) slow++;
  process.stdout.write(
    `${path.padEnd(48)} ${status}  first ${first.toFixed(0).padStart(5)} ms, typical ${typical.toFixed(1).padStart(6)} ms, ${(bytes / 1000).toFixed(0)} kB\n`,
  );
}
await api.close();
rmSync(folder, { recursive: true, force: true });
if (slow > 0) process.exitCode = 1;

async function makeSeason({ call, store, import: send }: TestApi): Promise<void> {
  const ids: number[] = [];
  for (let a = 1; a <= ATHLETES; a++)
    ids.push((await call('POST', '/athletes', { name: `Athlete ${a}` })).body.athlete_id);
  const { body: group } = await call('POST', '/groups', { name: 'Club', athlete_ids: ids });
  const dates = Array.from({ length: 2 * WEEKS }, (_, i) =>
    new Date(Date.UTC(2025, 10, 24) + 86_400_000 * (3.5 * i)).toISOString().slice(0, 10),
  );
  for (const session_date of dates) await call('POST', '/sessions', { session_date, group_id: group.group_id });
  const { left, right } = sprintFiles();
  await send(
    { athlete_id: ids[0], session_id: 1, mounting: 'foot', effort_percent: 100, course: '30m', time: '5.3s' },
    { left, right },
  );
  const { database } = store;
  const columns = (table: string) =>
    (database.prepare('SELECT name FROM pragma_table_info(?)').all(table) as { name: string }[]).map(
      ({ name }) => name,
    );
  const own = (table: string, without: string[]) => columns(table).filter((name) => !without.includes(name));
  const repetitionColumns = own('repetitions', [
    'repetition_id',
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
  const analysisColumns = own('analyses', ['analysis_id', 'repetition_id', 'contact_time_ms']);
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
      EFFORTS.forEach((effort, r) => {
        for (const athleteId of ids) {
          const id = repetition.run(s + 1, athleteId, r + 1, effort).lastInsertRowid;
          const change = 1 + 0.04 * (Math.random() - 0.5);
          const analysisId = analysis.run(id, change).lastInsertRowid;
          contacts.run(analysisId, change, 1 + 0.04 * (Math.random() - 0.5));
          link.run(id, id);
          finish.run(analysisId, id);
        }
      });
    });
  });
}
