import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { comparableRepetitions } from '../../api/measuring/comparable-repetitions.ts';
import { isGrowing } from '../../api/measuring/growth.ts';
import { listRepetitions } from '../../api/store/repetitions.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';
import { openTestApi, type TestApi } from '../helpers/test-api.ts';

let api: TestApi;
beforeAll(async () => {
  api = await openTestApi();
});
afterAll(() => api.close());

describe('what a repetition is compared with', () => {
  test('is of earlier sessions at an effort within 2.5 %, on a course within half a metre', async () => {
    const { left, right } = sprintFiles();
    const { athlete_id } = await api.athleteAndSession();
    const on = async (session_date: string) => (await api.call('POST', '/sessions', { session_date })).body.session_id;
    const [first, second] = [await on('2026-02-01'), await on('2026-02-08')];
    const added = await api.import(
      { athlete_id, session_id: first, mounting: 'foot', course: '30m', effort_percent: 90 },
      { left, right },
    );
    const before = added.body.repetition_ids[0];
    // The same files for another session: what is compared is what is stored with them.
    const again = await api.import(
      { athlete_id, session_id: second, mounting: 'shank', course: '30m', effort_percent: 90 },
      { left, right },
    );
    const now = again.body.repetition_ids[0];
    expect(now).not.toBe(before);
    const set = (id: number, column: string, value: number) =>
      api.store.prepare(`UPDATE repetitions SET ${column} = ? WHERE repetition_id = ?`).run(value, id);
    const compared = () => {
      const [line] = listRepetitions(api.store, { repetition_ids: [now] });
      return comparableRepetitions(api.store, line).map(({ repetition_id }) => repetition_id);
    };
    for (const [effort, expected] of [
      [90, [before]],
      [92.4, [before]],
      [92.6, []],
      [87.4, []],
      [87.6, [before]],
    ] as const) {
      set(before, 'effort_percent', effort);
      expect(compared(), `${effort} %`).toEqual(expected);
    }
    for (const [metres, expected] of [
      [30.4, [before]],
      [30.6, []],
      [29.4, []],
    ] as const) {
      set(before, 'course_distance_m', metres);
      expect(compared(), `${metres} m`).toEqual(expected);
    }
  });
});

describe('files of another mounting', () => {
  test('are no duplicate, though their bytes are the same', async () => {
    const { left, right } = sprintFiles();
    const place = await api.athleteAndSession();
    const foot = await api.import({ ...place, mounting: 'foot', course: '30m' }, { left, right });
    const shank = await api.import({ ...place, mounting: 'shank', course: '30m' }, { left, right });
    const twice = await api.import({ ...place, mounting: 'foot', course: '30m' }, { left, right });
    expect(foot.body.duplicate_of).toBeNull();
    expect(shank.body.duplicate_of).toBeNull();
    expect(twice.body.duplicate_of).toBe(foot.body.import_id);
  });
});

describe('isGrowing', () => {
  test('holds from the ninth birthday to the day before the eighteenth', async () => {
    const { body } = await api.call('POST', '/athletes', { name: 'Oda Fenn', birth_date: '2010-05-10' });
    const on = (date: string) => isGrowing(api.store, body.athlete_id, date);
    expect([on('2019-05-09'), on('2019-05-10'), on('2028-05-09'), on('2028-05-10')]).toEqual([
      false,
      true,
      true,
      false,
    ]);
  });

  test('without a birth date goes by two centimetres within a year', async () => {
    const { body } = await api.call('POST', '/athletes', { name: 'Liv Tarn' });
    const measure = (date: string, stature_m: number) =>
      api.call('POST', `/coach/athletes/${body.athlete_id}/measures`, {
        date,
        stature_m,
        body_mass_kg: null,
        leg_length_m: null,
      });
    await measure('2026-01-10', 1.6);
    await measure('2026-06-10', 1.615);
    expect(isGrowing(api.store, body.athlete_id, '2026-07-01')).toBe(false);
    await measure('2026-06-20', 1.621);
    expect(isGrowing(api.store, body.athlete_id, '2026-07-01')).toBe(true);
    expect(isGrowing(api.store, body.athlete_id, '2027-03-01')).toBe(false);
  });
});
