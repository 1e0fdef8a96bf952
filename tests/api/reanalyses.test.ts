import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ReanalysisReport } from '../../shared/schemas/reanalysis.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';
import { openTestApi, type TestApi } from '../helpers/test-api.ts';

let api: TestApi;
beforeAll(async () => {
  api = await openTestApi();
  const place = await api.athleteAndSession();
  for (const seed of [7, 8, 9]) {
    const { left, right } = sprintFiles(seed);
    await api.import({ ...place, mounting: 'foot', effort_percent: 100, course: '30m' }, { left, right });
  }
});
afterAll(() => api.close());

async function ended(id: number): Promise<ReanalysisReport> {
  for (;;) {
    const { body } = await api.call<ReanalysisReport>('GET', `/reanalyses/${id}`);
    if (body.state !== 'working') return body;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}
const current = async () =>
  (await api.call('GET', '/repetitions')).body.items.map((line: { analysis_id: number }) => line.analysis_id);

describe('analysing an archive again', () => {
  it('with nothing changed gives the same figures to the last bit, and shows the old ones until accepted', async () => {
    const before = await current();
    const { status, body } = await api.call('POST', '/reanalyses', {});
    expect([status, body.total]).toEqual([202, 3]);
    const report = await ended(body.reanalysis_id);
    expect(report).toMatchObject({ state: 'done', done: 3, failed: 0, accepted: false });
    for (const change of report.changes) expect([change.unchanged, change.largest_change]).toEqual([change.n, 0]);
    expect(await current()).toEqual(before);
  });

  it('follows a change of wind, which the air that is run against rests on, and not one of notes', async () => {
    const [one] = (await api.call('GET', '/repetitions')).body.items;
    const change = async (fields: object) =>
      (await api.call('PATCH', `/repetitions/${one.repetition_id}`, fields)).body.analysis_id;
    expect(await change({ notes: 'windy' })).toBe(one.analysis_id);
    expect(await change({ wind_mps: 1.8 })).toBeGreaterThan(one.analysis_id);
  });

  it('with other settings compares new with old, and can be accepted and taken back', async () => {
    const before = await current();
    const settings = { running: { max_contact_s: 0.2 } };
    const { body } = await api.call('POST', '/reanalyses', { settings });
    const report = await ended(body.reanalysis_id);
    expect(report.settings).toEqual(settings);
    expect(report.changes.find((change) => change.quantity === 'contacts')).toBeDefined();
    await api.call('POST', `/reanalyses/${body.reanalysis_id}/accept`);
    const after = await current();
    expect(after.every((id: number, i: number) => id > before[i])).toBe(true);
    await api.call('POST', `/reanalyses/${body.reanalysis_id}/revert`);
    expect(await current()).toEqual(before);
  });

  it('goes on where a killed program was', async () => {
    api.store.database.exec(`
      INSERT INTO reanalyses (state, created_utc) VALUES ('working', '2026-03-02T00:00:00Z');
      INSERT INTO reanalysis_items (reanalysis_id, repetition_id, before_analysis_id)
        SELECT last_insert_rowid(), repetition_id, analysis_id FROM repetitions;`);
    const { id } = api.store.prepare('SELECT max(reanalysis_id) AS id FROM reanalyses').get() as { id: number };
    const again = await openTestApi(api.folder);
    const close = again.app.close.bind(again.app);
    api = { ...again, close: api.close };
    expect(await ended(id)).toMatchObject({ state: 'done', done: 3 });
    await close();
    again.store.close();
  });

  it('refuses settings that do not exist before it starts', async () => {
    const fresh = await openTestApi();
    const answer = await fresh.call('POST', '/reanalyses', { settings: { swings: {} } });
    expect([answer.status, answer.body.code]).toEqual([422, 'SETTINGS_UNREADABLE']);
    await fresh.close();
  });
});
