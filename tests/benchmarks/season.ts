/**
 * Answering times with a year of a club: 30 athletes, two sessions a week, six repetitions each, some half a million contacts.
 * `npm run bench:season [-- ATHLETES WEEKS]`. One invented sprint is stored through the API and copied with small random
 * changes, so that the store has the size and the spread of a real one. Exit code 1 when a page's data takes above 100 ms.
 */
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { openTestApi } from '../helpers/test-api.ts';
import { copySeason } from './copy-season.ts';

const ATHLETES = Number(process.argv[2] ?? 30);
const WEEKS = Number(process.argv[3] ?? 52);
const TARGET_MS = 100;

const folder = mkdtempSync(join(tmpdir(), 'cinderlane-season-'));
const api = await openTestApi(folder);
await copySeason(api, { athletes: ATHLETES, sessions: 2 * WEEKS, efforts: [50, 75, 90, 100, 100, 100] });
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
