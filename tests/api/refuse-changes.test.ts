import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { buildApp } from '../../api/server/app.ts';
import { openStore } from '../../api/store/open-store.ts';
import { fault } from '../../shared/fault.ts';
import type { Contact } from '../../shared/analysis.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';
import { openTestApi, postForm, type TestApi } from '../helpers/test-api.ts';

/** What is asked with a body and must work while nothing can be written. */
const ASKED_WITH_A_BODY = [
  'POST /api/agreement',
  'POST /api/agreement/report',
  'POST /api/capture/descriptions/check',
  'POST /api/coach/plan-check',
  'POST /api/layouts/preview',
  'POST /api/repeatability',
];
const READS = ['GET', 'HEAD', 'OPTIONS'];

/** Every operation of the API as its documentation lists it. */
async function operations(app: TestApi['app']): Promise<{ method: string; path: string }[]> {
  const { paths } = (await app.inject({ method: 'GET', url: '/api/docs/json' })).json();
  return Object.entries(paths as Record<string, object>).flatMap(([path, methods]) =>
    Object.keys(methods).map((method) => ({ method: method.toUpperCase(), path })),
  );
}

test('a database that cannot be written refuses every operation that would change it, and no question', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-refuse-'));
  const file = join(folder, 'cinderlane.sqlite');
  openStore(file).close();
  const { store, close } = openStore(file, fault('READ_ONLY.folder', { folder, why: '' }, { folder }));
  const app = await buildApp({ store });
  try {
    const answered: string[] = [];
    for (const { method, path } of await operations(app)) {
      if (READS.includes(method)) continue;
      const url = path.replace(/\{[^}]+\}/g, '1');
      const answer = await app.inject({ method: method as 'POST', url, payload: {} });
      if (answer.json().code !== 'READ_ONLY') answered.push(`${method} ${path}`);
    }
    expect(answered.sort()).toEqual(ASKED_WITH_A_BODY);
  } finally {
    await app.close();
    close();
    rmSync(folder, { recursive: true, force: true });
  }
});

test('the questions that are asked with a body leave the database as it was', async () => {
  const api = await openTestApi();
  try {
    const ids = await api.athleteAndSession();
    const { left, right } = sprintFiles();
    const { body: done } = await api.import({ ...ids, mounting: 'foot' }, { left, right });
    const [repetition_id] = done.repetition_ids;
    const { body: repetition } = await api.call('GET', `/repetitions/${repetition_id}`);
    const contacts = repetition.analysis.result.contacts as Contact[];
    const reference_csv = [
      'side,touchdown_s,toe_off_s',
      ...contacts.map(({ side, touchdown_s, toe_off_s }) => [side, touchdown_s, toe_off_s].join()),
    ].join('\n');
    const study = { reference_clock: 'file', items: [{ repetition_id, reference_csv }] };
    const form = new FormData();
    form.set('file', new Blob([left]), 'left.csv');
    const bodies: Record<string, unknown> = {
      'POST /api/agreement': study,
      'POST /api/agreement/report?form=pdf': study,
      'POST /api/capture/descriptions/check': { text: '{}' },
      'POST /api/coach/plan-check': { session_date: '2026-03-02', sets: [], athlete_ids: [ids.athlete_id] },
      'POST /api/layouts/preview': form,
      // One athlete with one session: refused after everything was read.
      'POST /api/repeatability': { quantity: 'contact_time_ms' },
    };
    expect(Object.keys(bodies).map((asked) => asked.replace(/\?.*/, ''))).toEqual(ASKED_WITH_A_BODY);
    for (const [asked, body] of Object.entries(bodies)) {
      const url = asked.slice('POST '.length);
      const before = writes(api);
      const answer =
        body instanceof FormData
          ? await postForm(api.app, url, body)
          : await api.app.inject({ method: 'POST', url, payload: body as object });
      expect([asked, answer.statusCode]).toEqual([asked, asked === 'POST /api/repeatability' ? 422 : 200]);
      expect([asked, writes(api)]).toEqual([asked, before]);
    }
  } finally {
    await api.close();
  }
});

const writes = ({ store }: TestApi): unknown => store.prepare('SELECT total_changes() AS n').get();
