import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildApp } from '../../api/server/app.ts';
import { openTestApi, type TestApi } from '../helpers/test-api.ts';

let api: TestApi;
beforeAll(async () => {
  api = await openTestApi();
});
afterAll(() => api.close());

describe('athletes and groups', () => {
  it('are made, changed, listed, deleted and brought back', async () => {
    const { body: group } = await api.call('POST', '/groups', { name: 'Sprints' });
    const made = await api.call('POST', '/athletes', {
      name: 'Ivo Marl',
      body_mass_kg: null,
      group_ids: [group.group_id],
    });
    expect(made.status).toBe(201);
    const path = `/athletes/${made.body.athlete_id}`;
    expect((await api.call('PATCH', path, { body_mass_kg: 71.5 })).body.body_mass_kg).toBe(71.5);
    expect((await api.call('GET', `/groups/${group.group_id}`)).body.athlete_ids).toEqual([made.body.athlete_id]);
    expect((await api.call('DELETE', path)).status).toBe(200);
    expect((await api.call('GET', path)).body.code).toBe('ATHLETE_NOT_FOUND');
    expect((await api.call('GET', '/athletes?deleted=true')).body.items.length).toBe(1);
    expect((await api.call('GET', `/groups/${group.group_id}`)).body.athlete_ids).toEqual([]);
    expect((await api.call('POST', `${path}/restore`)).body.body_mass_kg).toBe(71.5);
    expect((await api.call('GET', `/athletes?group_id=${group.group_id}`)).body.items.length).toBe(1);
  });

  it('keep the running order of a group', async () => {
    const ids: number[] = [];
    for (const name of ['C', 'A', 'B']) ids.push((await api.call('POST', '/athletes', { name })).body.athlete_id);
    const order = [ids[1], ids[0], ids[2]];
    const { body: group } = await api.call('POST', '/groups', { name: 'Order', athlete_ids: order });
    expect(group.athlete_ids).toEqual(order);
    const turned = [...order].reverse();
    expect((await api.call('PATCH', `/groups/${group.group_id}`, { athlete_ids: turned })).body.athlete_ids).toEqual(
      turned,
    );
  });

  it('refuse a misspelt field, a text for a number and a group that is not there, and store nothing', async () => {
    const before = (await api.call('GET', '/athletes')).body.items.length;
    const misspelt = await api.call('POST', '/athletes', { name: 'X', body_mas_kg: 70 });
    expect([misspelt.status, misspelt.body.code, misspelt.body.where.field]).toEqual([
      400,
      'REQUEST_INVALID',
      'body_mas_kg',
    ]);
    expect((await api.call('POST', '/athletes', { name: 'X', body_mass_kg: '70' })).body.where.field).toBe(
      'body_mass_kg',
    );
    expect((await api.call('POST', '/athletes', { name: 'X', group_ids: [9999] })).body.code).toBe('GROUP_NOT_FOUND');
    expect((await api.call('GET', '/athletes')).body.items.length).toBe(before);
  });
});

describe('sessions and repetitions', () => {
  it('are found by athlete, group and day, with the repetitions in running order', async () => {
    const { athlete_id } = await api.athleteAndSession();
    const { body: group } = await api.call('POST', '/groups', { name: 'Evening' });
    const { body: session } = await api.call('POST', '/sessions', {
      session_date: '2026-04-01',
      group_id: group.group_id,
    });
    const repetition = { session_id: session.session_id, athlete_id };
    await api.call('POST', '/repetitions', { ...repetition, effort_percent: 75, order_number: 2 });
    await api.call('POST', '/repetitions', { ...repetition, effort_percent: 50, order_number: 1 });
    await api.call('POST', '/repetitions', { ...repetition, effort_percent: 100 });
    const { body: whole } = await api.call('GET', `/sessions/${session.session_id}`);
    expect(whole.repetitions.map((line: { effort_percent: number }) => line.effort_percent)).toEqual([50, 75, 100]);
    expect([whole.repetition_count, whole.analysed_count, whole.athlete_ids]).toEqual([3, 0, [athlete_id]]);
    for (const query of [`athlete_id=${athlete_id}`, `group_id=${group.group_id}`, 'from=2026-04-01&to=2026-04-01']) {
      const { body } = await api.call('GET', `/sessions?${query}`);
      expect(body.items.map((item: { session_id: number }) => item.session_id)).toEqual([session.session_id]);
    }
    expect((await api.call('GET', '/sessions?from=2026-04-02')).body.items).toEqual([]);
  });

  it('of a deleted session or athlete leave the lists and come back with it', async () => {
    const { athlete_id, session_id } = await api.athleteAndSession();
    await api.call('POST', '/repetitions', { session_id, athlete_id });
    const count = async () => (await api.call('GET', `/repetitions?athlete_id=${athlete_id}`)).body.items.length;
    expect(await count()).toBe(1);
    for (const path of [`/sessions/${session_id}`, `/athletes/${athlete_id}`]) {
      await api.call('DELETE', path);
      expect(await count()).toBe(0);
      await api.call('POST', `${path}/restore`);
      expect(await count()).toBe(1);
    }
  });

  it('without a recording cannot be analysed, and that is said', async () => {
    const { athlete_id, session_id } = await api.athleteAndSession();
    const { body } = await api.call('POST', '/repetitions', { session_id, athlete_id });
    const answer = await api.call('POST', `/repetitions/${body.repetition_id}/analyses`);
    expect([answer.status, answer.body.code]).toEqual([409, 'REPETITION_NOT_RECORDED']);
  });
});

describe('the view', () => {
  it('is served with lasting assets and a page that is always asked for anew', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'cinderlane-view-'));
    mkdirSync(join(folder, 'assets'));
    writeFileSync(join(folder, 'index.html'), '<!doctype html>');
    writeFileSync(join(folder, 'assets/main-1a2b.js'), '');
    const app = await buildApp({ store: api.store, web_folder: folder });
    const page = await app.inject({ method: 'GET', url: '/' });
    const asset = await app.inject({ method: 'GET', url: '/assets/main-1a2b.js' });
    expect([page.statusCode, page.headers['cache-control']]).toEqual([200, 'no-cache']);
    expect(asset.headers['cache-control']).toContain('immutable');
    await app.close();
    rmSync(folder, { recursive: true });
  });

  it('that was not built is said, with what to do', async () => {
    const app = await buildApp({ store: api.store, web_folder: '/nowhere' });
    const page = await app.inject({ method: 'GET', url: '/' });
    expect([page.statusCode, page.json().code]).toEqual([404, 'VIEW_NOT_BUILT']);
    await app.close();
  });
});
