import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { addFocus, addMeasure, setSensors } from '../../../api/coach/athlete-records.ts';
import { addSprintTest } from '../../../api/coach/tests/sprint-tests.ts';
import { changeConsent } from '../../../api/export/consents.ts';
import { Store } from '../../../api/store/store.ts';
import { sprintFiles } from '../../helpers/sprint-files.ts';
import { openTestApi } from '../../helpers/test-api.ts';
import { makeRepetition } from '../coach/make-club.ts';

export const DATABASE = 'cinderlane.sqlite';

export interface ArchivedClub {
  folder: string;
  /** Two who agreed, one who did not. */
  agreed: number[];
  silent: number;
  session_id: number;
}

/**
 * A club of three in a folder of its own: a real sprint imported for one (with its raw files and samples), a made-up result for another,
 * one who did not agree, and at least a row in every table that travels.
 */
export async function makeArchivedClub(): Promise<ArchivedClub> {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-club-'));
  const api = await openTestApi(folder);
  const { store } = api;
  const athlete = async (name: string, birth_date: string) =>
    (await api.call('POST', '/athletes', { name, birth_date, sex: 'female', notes: 'left-handed' })).body.athlete_id;
  const agreed: number[] = [
    await athlete('Tamsin Oakenfold', '2004-05-06'),
    await athlete('Perpetua Vance', '2010-02-03'),
  ];
  const silent: number = await athlete('Merrin Stillwater', '2001-01-01');
  for (const id of agreed)
    changeConsent(store, id, { status: 'given', status_date: '2026-01-10', guardian: 'a parent' });
  const { body: group } = await api.call('POST', '/groups', { name: 'Evening', athlete_ids: [...agreed, silent] });
  const { body: session } = await api.call('POST', '/sessions', {
    session_date: '2026-03-02',
    group_id: group.group_id,
    title: 'with Merrin Stillwater',
    place: 'the old track',
  });
  const { session_id } = session as { session_id: number };
  const { left, right } = sprintFiles();
  // A logger that writes into the head of the file whom it thinks it is on.
  const named = `# athlete: Tamsin OAKENFOLD\n${left}`;
  await api.import(
    { athlete_id: agreed[0], session_id, mounting: 'foot', effort_percent: 100, course: '30m', time: '5.3s' },
    { left: named, right },
  );
  await api.import({ athlete_id: agreed[1], session_id, mounting: 'foot' }, { left: 'no,table\nat,all\n' });
  const repetition_id = makeRepetition(store, session_id, agreed[1], { contact_time_ms: 131 });
  makeRepetition(store, session_id, silent, { contact_time_ms: 128 });
  addMeasure(store, agreed[0], { date: '2026-02-01', body_mass_kg: 61.5, stature_m: 1.7, leg_length_m: 0.9 });
  addFocus(store, agreed[0], { focus: 'contact_time', from_date: '2026-02-01', note: 'slowly' });
  setSensors(store, agreed[0], [{ side: 'left', sensor_name: 'sensor 4', mounting: 'foot' }]);
  addSprintTest(store, {
    athlete_id: agreed[1],
    date: '2026-02-20',
    distance_m: 40,
    timing_method: 'hand',
    time_s: 5.6,
  });
  const now = '2026-03-02T18:00:00.000Z';
  const add = (sql: string, ...values: unknown[]) => void store.prepare(sql).run(...values);
  add('INSERT INTO session_plans VALUES (?, NULL, ?, ?)', session_id, '[]', now);
  for (const [i, id] of agreed.entries()) add('INSERT INTO session_athletes VALUES (?, ?, ?)', session_id, id, i + 1);
  add('INSERT INTO athlete_returns VALUES (?, ?, ?)', agreed[1], '2026-01-01', 'hamstring');
  add('INSERT INTO retention_answers VALUES (?, ?, ?)', agreed[0], now, 'still runs');
  add(
    "INSERT INTO strength_records (athlete_id, date, lift, load_kg, load_unit, sets, repetitions) VALUES (?, '2026-02-02', 'deadlift', 82.5, 'kg', 3, 5)",
    agreed[0],
  );
  add("INSERT INTO coach_focuses (key, name) VALUES ('own_arms', 'Quiet arms')");
  add(
    "INSERT INTO layouts (name, fingerprint, layout, created_utc, updated_utc) VALUES ('ours', 'f', '{}', ?, ?)",
    now,
    now,
  );
  add("INSERT INTO settings VALUES ('coach', ?)", '{"stop_rule":{"beyond_in_a_row":2,"speed_loss_percent":null}}');
  add('INSERT INTO repetition_ratings VALUES (?, ?, ?, ?, ?)', repetition_id, 'arms', 3, 'wide', now);
  add(
    'INSERT INTO rating_photos VALUES (?, ?, ?, ?, ?)',
    repetition_id,
    'arms',
    'image/png',
    Buffer.from([1, 0, 255]),
    now,
  );
  add(
    "INSERT INTO film_ties (repetition_id, file_name, file_bytes, frame_s, marks, updated_utc) VALUES (?, 'perpetua.webm', 9, 0.04, '[]', ?)",
    repetition_id,
    now,
  );
  add('INSERT INTO session_pseudonyms VALUES (?, ?, ?)', session_id, agreed[0], 'SABCDEFGH');
  await api.app.close();
  store.close();
  return { folder, agreed, silent, session_id };
}

/** Opens the database of a folder, works on it and closes it. */
export async function withStore<Result>(
  folder: string,
  work: (store: Store) => Promise<Result> | Result,
): Promise<Result> {
  const store = Store.open(join(folder, DATABASE));
  try {
    return await work(store);
  } finally {
    store.close();
  }
}
