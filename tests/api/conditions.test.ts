import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { conditionsOf } from '../../api/measuring/course-and-conditions.ts';
import { openTestApi, type TestApi } from '../helpers/test-api.ts';

let api: TestApi;
beforeAll(async () => {
  api = await openTestApi();
});
afterAll(() => api.close());

describe('conditions of a repetition', () => {
  it("are the measures taken nearest to its day, the athlete's own figures where none was taken, and the air", async () => {
    const { body: athlete } = await api.call('POST', '/athletes', {
      name: 'Tove Ash',
      body_mass_kg: 50,
      leg_length_m: 0.8,
    });
    const { athlete_id } = athlete;
    for (const [date, body_mass_kg] of [
      ['2026-01-10', 52],
      ['2026-06-10', 57],
    ]) {
      const measure = { date, body_mass_kg, stature_m: null, leg_length_m: null };
      const { status, body } = await api.call('POST', `/coach/athletes/${athlete_id}/measures`, measure);
      expect(status, JSON.stringify(body)).toBeLessThan(300);
    }
    const massOn = async (session_date: string) => {
      const { body: session } = await api.call('POST', '/sessions', { session_date, temperature_c: 12 });
      return conditionsOf(api.store, { athlete_id, session_id: session.session_id, wind_mps: 0.4 });
    };
    expect(await massOn('2026-02-01')).toMatchObject({
      body_mass_kg: 52,
      leg_length_m: 0.8,
      temperature_c: 12,
      wind_mps: 0.4,
    });
    expect((await massOn('2026-05-30')).body_mass_kg).toBe(57);
    expect((await massOn('2025-05-30')).body_mass_kg).toBe(52);
  });
});
