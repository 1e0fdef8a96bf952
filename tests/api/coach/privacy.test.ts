import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepForAYear, retentionQuestions } from '../../../api/coach/people/retention.ts';
import { addDays, localDate } from '../../../shared/dates.ts';
import { openTestApi, type TestApi } from '../../helpers/test-api.ts';

let api: TestApi;
beforeAll(async () => {
  api = await openTestApi();
});
afterAll(() => api.close());

const TODAY = localDate(new Date());
const YEAR = Number(TODAY.slice(0, 4));
async function athlete(fields: object): Promise<number> {
  return (await api.call('POST', '/athletes', fields)).body.athlete_id;
}

describe('a person of whom the year of birth alone is kept', () => {
  it('is held to be no older than they are', async () => {
    const id = await athlete({ name: 'Rosa Quill', birth_date: String(YEAR - 14) });
    const { body } = await api.call('GET', `/coach/athletes/${id}?today=${YEAR}-12-30`);
    expect([body.athlete.birth_date, body.age_years]).toEqual([String(YEAR - 14), 13]);
    for (const birth_date of ['12', '2012-5-4', '2012-05', '20120504'])
      expect((await api.call('PATCH', `/athletes/${id}`, { birth_date })).status, birth_date).toBe(400);
  });
});

describe('consent to research', () => {
  it('carries its legal basis and who decided for a minor, and asks where nobody is named', async () => {
    const [minor, adult] = [
      await athlete({ name: 'A Minor', birth_date: String(YEAR - 15) }),
      await athlete({ name: 'An Adult', birth_date: `${YEAR - 30}-01-01` }),
    ];
    const given = { status: 'given', status_date: TODAY };
    const put = (id: number, body: object) => api.call('PUT', `/athletes/${id}/research-consent`, body);
    expect((await put(adult, given)).body).toMatchObject({ guardian_missing: false, legal_basis: null, guardian: '' });
    expect((await put(minor, given)).body.guardian_missing).toBe(true);
    const decided = { ...given, legal_basis: 'consent', guardian: 'Ida Minor, mother' };
    expect((await put(minor, decided)).body).toMatchObject({ guardian_missing: false, legal_basis: 'consent' });
    // A change of the status alone loses neither.
    expect((await put(minor, given)).body).toMatchObject({ guardian: 'Ida Minor, mother', legal_basis: 'consent' });
  });
});

describe('the yearly question', () => {
  it('names who has not run for a year, is quiet for a year once answered, and erases nobody', async () => {
    const id = await athlete({ name: 'Long Gone' });
    api.store.prepare('UPDATE athletes SET created_utc = ? WHERE athlete_id = ?').run('2020-01-01T00:00:00.000Z', id);
    const asked = (on: string) => retentionQuestions(api.store, on).filter(({ athlete_id }) => athlete_id === id);
    expect(asked(TODAY)).toEqual([
      { athlete_id: id, name: 'Long Gone', last_session_date: null, kept_utc: null, deleted: false },
    ]);
    const { body: session } = await api.call('POST', '/sessions', { session_date: addDays(TODAY, -200) });
    await api.call('POST', '/repetitions', { session_id: session.session_id, athlete_id: id });
    expect(asked(TODAY)).toEqual([]);
    expect(asked(addDays(TODAY, 170))).toHaveLength(1);
    expect((await api.call('POST', `/coach/athletes/${id}/keep`, { reason: 'a study' })).status).toBe(200);
    expect(asked(addDays(TODAY, 170))).toEqual([]);
    expect(asked(addDays(TODAY, 370))).toHaveLength(1);
    expect(() => keepForAYear(api.store, 4711)).toThrow(/ATHLETE_NOT_FOUND|no athlete/i);
  });
});
