/** Norms of a programme beside an athlete: off until they are wanted, of people alike, and never where values stand alone. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { normCell, putNorms } from '../../helpers/fetched-norms.ts';
import { openTestApi, type TestApi } from '../../helpers/test-api.ts';
import { makeRepetition } from './make-club.ts';

let api: TestApi;
beforeEach(async () => {
  api = await openTestApi();
});
afterEach(() => api.close());

const ADULT = normCell();
const MINORS = normCell({ age_from: 16, age_to: 18, mean: 126, p50: 126, p05: 112, p95: 140 });

async function runner(name: string, fields: object): Promise<number> {
  const { athlete_id } = (await api.call('POST', '/athletes', { name, ...fields })).body;
  const { session_id } = (await api.call('POST', '/sessions', { session_date: '2026-11-02', title: name })).body;
  makeRepetition(
    api.store,
    session_id,
    athlete_id,
    { contact_time_ms: 117, speed_max_mps: 8 },
    { effort_percent: 100 },
  );
  return athlete_id;
}
const others = async (athlete_id: number) =>
  (await api.call('GET', `/coach/athletes/${athlete_id}/others?today=2026-12-01`)).body;

test('a club that fetched no norms has none to show', async () => {
  const athlete_id = await runner('Iris Holm', { sex: 'female', birth_date: '2004-06-01' });
  expect((await api.call('GET', '/coach/norms')).body).toEqual({ norms: null });
  expect(await others(athlete_id)).toEqual({ norms: null, bands: [] });
  expect(await api.call('PUT', '/coach/norms', { shown: true })).toMatchObject({
    status: 404,
    body: { code: 'NORMS_NOT_FOUND' },
  });
});

test('norms that were fetched are shown when they are wanted, with date, version and key, and no longer when they are not', async () => {
  const fingerprint = putNorms(api.store, [ADULT, MINORS]);
  const athlete_id = await runner('Iris Holm', { sex: 'female', birth_date: '2004-06-01' });
  const off = await others(athlete_id);
  expect(off).toMatchObject({ norms: { programme: 'Northern programme', shown: false, fingerprint }, bands: [] });
  const { body } = await api.call('PUT', '/coach/norms', { shown: true });
  expect(body).toMatchObject({ shown: true, published_utc: '2026-11-20T08:00:00.000Z', fewest_people: 10 });
  expect(body.version).toMatch(/^\d+\.\d+\.\d+/);
  const { bands } = await others(athlete_id);
  expect(bands).toMatchObject([{ quantity: 'contact_time_ms', band: { p50: 121, people: 14 } }]);
  const own = api.store
    .prepare(
      'SELECT avg(contact_time_ms) AS mean, count(*) AS n FROM contacts WHERE speed_mps >= 7 AND speed_mps < 8 AND contact_time_ms IS NOT NULL',
    )
    .get() as { mean: number; n: number };
  expect(bands[0].own_mean).toBeCloseTo(own.mean, 9);
  expect(bands[0].own_contacts).toBe(own.n);
  await api.call('PUT', '/coach/norms', { shown: false });
  expect((await others(athlete_id)).bands).toEqual([]);
});

test('a minor stands beside minors only; whoever is not known, or returns from an injury, beside nobody; a deleted session does not count', async () => {
  putNorms(api.store, [ADULT, MINORS]);
  await api.call('PUT', '/coach/norms', { shown: true });
  const minor = await runner('Wren Cole', { sex: 'female', birth_date: '2009-06-01' });
  expect((await others(minor)).bands.map(({ band }: { band: { p50: number } }) => band.p50)).toEqual([126]);
  const unknown = await runner('Sam Lowe', {});
  expect((await others(unknown)).bands).toEqual([]);
  const back = await runner('Ada Moss', { sex: 'female', birth_date: '2004-06-01' });
  expect((await others(back)).bands).toHaveLength(1);
  await api.call('PUT', `/coach/athletes/${back}/returning`, {
    returning: { since_date: '2026-11-20', note: '' },
  });
  expect((await others(back)).bands).toEqual([]);
  const gone = await runner('Ines Falk', { sex: 'female', birth_date: '2004-06-01' });
  expect((await others(gone)).bands).toHaveLength(1);
  const { session_id } = api.store.prepare('SELECT session_id FROM repetitions WHERE athlete_id = ?').get(gone) as {
    session_id: number;
  };
  await api.call('DELETE', `/sessions/${session_id}`);
  expect((await others(gone)).bands).toEqual([]);
  expect((await api.call('GET', '/coach/athletes/999/others')).status).toBe(404);
});
