/** What a sprint test may name over the API: a repetition of the same athlete, a day of the calendar. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { createAthlete } from '../../../api/store/athletes.ts';
import { createRepetition } from '../../../api/store/repetitions.ts';
import { openTestApi, type TestApi } from '../../helpers/test-api.ts';

let api: TestApi;
let own: number;
let other: number;
let sprint_test_id: number;

beforeAll(async () => {
  api = await openTestApi();
  const { athlete_id, session_id } = await api.athleteAndSession();
  const another = createAthlete(api.store, { name: 'Ilse Marrow' }).athlete_id;
  own = createRepetition(api.store, { athlete_id, session_id }).repetition_id;
  other = createRepetition(api.store, { athlete_id: another, session_id }).repetition_id;
  const body = { athlete_id, date: '2026-03-02', distance_m: 36.576, time_s: 5.1, timing_method: 'hand' };
  const made = await api.call('POST', '/coach/sprint-tests', body);
  expect(made.status).toBeLessThan(300);
  ({ sprint_test_id } = made.body);
});
afterAll(() => api.close());

const change = (body: object) => api.call('PATCH', `/coach/sprint-tests/${sprint_test_id}`, body);

test('takes a repetition of its athlete and lets go of it', async () => {
  expect((await change({ repetition_id: own })).body).toMatchObject({ repetition_id: own });
  expect((await change({ repetition_id: null })).body).toMatchObject({ repetition_id: null });
});

test("refuses a repetition that is not there, or another athlete's", async () => {
  for (const repetition_id of [other, 9999]) {
    const { status, body } = await change({ repetition_id });
    expect([status, body.code]).toEqual([404, 'REPETITION_NOT_FOUND']);
  }
});

test('refuses days and months that no calendar has', async () => {
  for (const date of ['2026-02-31', '0000-00-00', '2026-13-01']) {
    const { status, body } = await change({ date });
    expect([date, status, body.ok]).toEqual([date, 400, false]);
  }
  const { status, body } = await api.call('GET', '/coach/reports/month/1/0000-01');
  expect([status, body.ok]).toEqual([400, false]);
});
