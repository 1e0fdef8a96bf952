import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { addFocus, addMeasure, setSensors } from '../../../api/coach/athlete-records.ts';
import { ROWS_OF_ATHLETE } from '../../../api/coach/people/person-export.ts';
import { addSprintTest } from '../../../api/coach/tests/sprint-tests.ts';
import { buildApp } from '../../../api/server/app.ts';
import { RawFileWriter } from '../../../api/store/raw-files.ts';
import { Store } from '../../../api/store/store.ts';
import { makeAthlete, makeRepetition, makeSession } from './make-club.ts';

const SECRET = 'Quillwort Marrablan';
const RAW = 'time_s,acc_x\n0,1.2345678\n';

async function club(folder: string) {
  const store = Store.open(join(folder, 'club.sqlite'));
  const athlete_id = makeAthlete(store, SECRET, '2011-04-05');
  const other = makeAthlete(store, 'Somebody else');
  const session_id = makeSession(store, '2026-03-02');
  const repetition_id = makeRepetition(store, session_id, athlete_id, { contact_time_ms: 123 });
  makeRepetition(store, session_id, other, { contact_time_ms: 130 });
  addMeasure(store, athlete_id, { date: '2026-02-01', body_mass_kg: 51.5, stature_m: 1.63, leg_length_m: 0.86 });
  addFocus(store, athlete_id, { focus: 'contact_time', from_date: '2026-02-01', note: `for ${SECRET}` });
  setSensors(store, athlete_id, [{ side: 'left', sensor_name: 'sensor 4', mounting: 'foot' }]);
  addSprintTest(store, { athlete_id, date: '2026-02-20', distance_m: 36.576, timing_method: 'hand', time_s: 5.2 });
  const writer = new RawFileWriter(store, 'left.csv');
  await writer.append(Buffer.from(RAW));
  const { raw_file_id } = await writer.finish();
  store
    .prepare(
      `INSERT INTO recordings (athlete_id, raw_file_id, source, file_name, side, mounting, sampling_rate_hz, samples, duration_s, has_gyroscope, created_utc)
       VALUES (?, ?, 'csv', 'left.csv', 'left', 'foot', 500, 1, 0, 0, '2026-03-02T10:00:00Z')`,
    )
    .run(athlete_id, raw_file_id);
  return { store, athlete_id, other, repetition_id, app: await buildApp({ store }) };
}

test('one person can take everything along and then be erased for good, and nobody else is touched', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-person-'));
  const { store, athlete_id, other, repetition_id, app } = await club(folder);
  try {
    const answer = await app.inject(`/api/coach/athletes/${athlete_id}/everything.zip`);
    expect(answer.statusCode).toBe(200);
    const files = unzipSync(answer.rawPayload);
    const person = JSON.parse(strFromU8(files['person.json']));
    expect(person.athletes).toMatchObject([{ name: SECRET, birth_date: '2011-04-05' }]);
    expect(person.athlete_measures).toMatchObject([{ body_mass_kg: 51.5 }]);
    expect(person.sprint_tests).toMatchObject([{ time_s: 5.2, timing_method: 'hand' }]);
    expect(person.repetitions.map((row: { athlete_id: number }) => row.athlete_id)).toEqual([athlete_id]);
    expect(strFromU8(files[`steps/repetition-${repetition_id}.csv`]).split('\n')[0]).toMatch(/^repetition,step,side/);
    const raw = Object.keys(files).find((name) => name.startsWith('recordings/'))!;
    expect(strFromU8(files[raw])).toBe(RAW);
    expect(strFromU8(files['person.json'])).not.toContain('Somebody else');

    const wrong = await app.inject({
      method: 'POST',
      url: `/api/coach/athletes/${athlete_id}/erase`,
      payload: { name: 'someone' },
    });
    expect(wrong.statusCode).toBe(422);
    expect(wrong.json()).toMatchObject({ ok: false, code: 'ERASE_NAME_DIFFERS' });

    const erased = await app.inject({
      method: 'POST',
      url: `/api/coach/athletes/${athlete_id}/erase`,
      payload: { name: SECRET },
    });
    expect(erased.json()).toMatchObject({ still_named_in: [], exports: 0 });
    // The number, and any pseudonym made of it, is never given again.
    expect(makeAthlete(store, 'the next')).toBeGreaterThan(Math.max(athlete_id, other));
    expect((await app.inject(`/api/athletes/${athlete_id}`)).statusCode).toBe(404);
    expect((await app.inject(`/api/athletes/${other}`)).statusCode).toBe(200);
    expect(store.prepare('SELECT COUNT(*) AS n FROM repetitions').get()).toEqual({ n: 1 });
    expect(store.prepare('SELECT COUNT(*) AS n FROM raw_files').get()).toEqual({ n: 0 });
    // Not a byte of the name is left in the database or its log.
    for (const name of readdirSync(folder)) {
      expect(readFileSync(join(folder, name)).includes(Buffer.from(SECRET))).toBe(false);
    }
  } finally {
    await app.close();
    store.close();
    rmSync(folder, { recursive: true });
  }
});

test('measures carry the newest body mass to the athlete, and a deletion takes it back', async () => {
  const store = Store.open(':memory:');
  const athlete_id = makeAthlete(store, 'Wren');
  const app = await buildApp({ store });
  const add = (date: string, body_mass_kg: number) =>
    app.inject({
      method: 'POST',
      url: `/api/coach/athletes/${athlete_id}/measures`,
      payload: { date, body_mass_kg, stature_m: null, leg_length_m: null },
    });
  await add('2026-01-01', 50);
  const second = (await add('2026-03-01', 52)).json() as { athlete_measure_id: number };
  await add('2026-02-01', 51);
  const mass = async () =>
    ((await app.inject(`/api/athletes/${athlete_id}`)).json() as { body_mass_kg: number }).body_mass_kg;
  expect(await mass()).toBe(52);
  await app.inject({ method: 'DELETE', url: `/api/coach/measures/${second.athlete_measure_id}` });
  expect(await mass()).toBe(51);
  await app.inject({ method: 'POST', url: `/api/coach/measures/${second.athlete_measure_id}/restore` });
  expect(await mass()).toBe(52);
  expect((await app.inject({ method: 'DELETE', url: '/api/coach/measures/999' })).json()).toMatchObject({
    ok: false,
    code: 'COACH_RECORD_NOT_FOUND',
  });
  await app.close();
});

test('every table that names a person is part of what the person can take along', () => {
  const store = Store.open(':memory:');
  const tables = store
    .prepare(
      "SELECT m.name FROM sqlite_master m WHERE m.type = 'table' AND EXISTS (SELECT 1 FROM pragma_table_info(m.name) c WHERE c.name = 'athlete_id')",
    )
    .all()
    .map((row) => (row as { name: string }).name);
  // Memberships are told by what one is a member of.
  const told: Record<string, string> = { group_members: 'groups', research_export_athletes: 'research_exports' };
  expect(tables.length).toBeGreaterThan(8);
  expect(tables.map((name) => told[name] ?? name).filter((name) => !(name in ROWS_OF_ATHLETE))).toEqual([]);
});

test('an erasure that was cut off before a row was deleted is finished at the next start, to the last byte', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-erasure-'));
  const { store, athlete_id, app } = await club(folder);
  await app.close();
  // What stands in the file when the program is killed just after the erasure was noted.
  store.prepare("INSERT INTO erasures (athlete_id, asked_utc) VALUES (?, '2026-03-03T10:00:00Z')").run(athlete_id);
  store.close();
  const again = Store.open(join(folder, 'club.sqlite'));
  const restarted = await buildApp({ store: again });
  await restarted.ready();
  try {
    expect(again.prepare('SELECT done_utc IS NOT NULL AS done FROM erasures').get()).toEqual({ done: 1 });
    expect((await restarted.inject(`/api/athletes/${athlete_id}`)).statusCode).toBe(404);
    for (const name of readdirSync(folder)) {
      expect(readFileSync(join(folder, name)).includes(Buffer.from(SECRET)), name).toBe(false);
    }
  } finally {
    await restarted.close();
    again.close();
    rmSync(folder, { recursive: true });
  }
});

test('the receipt of an erasure says in which texts of others the name still stands', async () => {
  const store = Store.open(':memory:');
  const athlete_id = makeAthlete(store, SECRET);
  const group_session = makeSession(store, '2026-03-02');
  makeRepetition(store, group_session, athlete_id, { contact_time_ms: 120 });
  makeRepetition(store, group_session, makeAthlete(store, 'Somebody else'), { contact_time_ms: 121 });
  store.prepare('UPDATE sessions SET notes = ?').run(`${SECRET} ran behind the others`);
  const app = await buildApp({ store });
  const copy = await app.inject(`/api/coach/athletes/${athlete_id}/everything.zip`);
  expect(strFromU8(unzipSync(copy.rawPayload)['person.json'])).not.toContain('behind the others');
  const url = `/api/coach/athletes/${athlete_id}/erase`;
  const answer = await app.inject({ method: 'POST', url, payload: { name: SECRET } });
  expect(answer.json().still_named_in).toEqual([{ table: 'sessions', column: 'notes', rows: 1 }]);
  await app.close();
});

test("files of an import that failed are part of a person's copy, under names that every system takes", async () => {
  const store = Store.open(':memory:');
  const athlete_id = makeAthlete(store, 'Wren');
  const session_id = makeSession(store, '2026-03-02');
  const writer = new RawFileWriter(store, 'a/b\u0000:\u202e.csv');
  await writer.append(Buffer.from(RAW));
  const { raw_file_id } = await writer.finish();
  const fields = { athlete_id, session_id, mounting: 'foot' };
  store
    .prepare(
      "INSERT INTO imports (state, step, athlete_id, session_id, fields, created_utc) VALUES ('failed', 'read', ?, ?, ?, '')",
    )
    .run(athlete_id, session_id, JSON.stringify(fields));
  store
    .prepare("INSERT INTO import_files (import_id, side, raw_file_id, file_name) VALUES (1, 'left', ?, 'x.csv')")
    .run(raw_file_id);
  const app = await buildApp({ store });
  const copy = unzipSync((await app.inject(`/api/coach/athletes/${athlete_id}/everything.zip`)).rawPayload);
  expect(Object.keys(copy).filter((name) => name.startsWith('recordings/'))).toEqual([
    `recordings/${raw_file_id}-a_b___.csv`,
  ]);
  await app.close();
});
