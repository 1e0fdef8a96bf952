import { expect, test } from 'vitest';
import { buildApp } from '../../../api/server/app.ts';
import { Store } from '../../../api/store/store.ts';
import type { AthleteFocus } from '../../../shared/schemas/coach/athlete-record.ts';
import type { FieldView } from '../../../shared/schemas/coach/field-view.ts';
import type { Focus } from '../../../shared/schemas/coach/focus.ts';
import { makeAthlete, makeRepetition, makeSession } from './make-club.ts';

/** The first bytes of a PNG; what follows does not matter here. */
const PNG = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3]);

test('a coach’s own focus: cue in own words, quantity, direction and aim, from the list to the field screen', async () => {
  const store = Store.open(':memory:');
  const app = await buildApp({ store });
  const call = async <T>(method: 'POST' | 'PATCH' | 'DELETE' | 'GET', url: string, payload?: object) =>
    (await app.inject({ method, url: `/api${url}`, payload })).json() as T;
  const body = {
    name: 'Long steps',
    cue: 'over the puddle',
    quantities: [{ quantity: 'step_length_m', aim: 'higher', mounting: null, target: 1.9 }],
  };
  const own = await call<Focus>('POST', '/coach/focuses', body);
  expect(own).toMatchObject({ ...body, key: 'own_1', source: '' });
  const { items } = await call<{ items: Focus[] }>('GET', '/coach/focuses');
  expect(items[0].key).toBe('own_1');
  for (const listed of items.slice(1))
    expect([listed.source, listed.cue]).toEqual([expect.stringMatching(/\d{4}/), '']);
  expect(
    await call('POST', '/coach/focuses', { ...body, quantities: [{ ...body.quantities[0], quantity: 'knee_m' }] }),
  ).toMatchObject({ code: 'FOCUS_QUANTITY_UNKNOWN' });

  const athlete_id = makeAthlete(store, 'Wren');
  const works = await call<AthleteFocus>('POST', `/coach/athletes/${athlete_id}/focuses`, {
    focus: own.key,
    from_date: '2026-03-01',
  });
  const session = makeSession(store, '2026-03-12');
  makeRepetition(store, session, athlete_id, { contact_time_ms: 120 });
  const athlete = async () => (await call<FieldView>('GET', `/coach/sessions/${session}/field`)).athletes[0];
  expect(await athlete()).toMatchObject({
    focus: { name: 'Long steps', quantity: 'step_length_m', cue: 'over the puddle' },
    verdict: { quantity: 'step_length_m', next: { kind: 'cue', text: 'Next: “over the puddle”' } },
  });
  await call('PATCH', `/coach/athlete-focuses/${works.athlete_focus_id}`, { cue: 'leap' });
  expect((await athlete()).focus!.cue).toBe('leap');
  // A deleted focus can no longer be chosen, and keeps its name where it was.
  await call('DELETE', `/coach/focuses/${own.coach_focus_id}`);
  expect((await athlete()).focus!.name).toBe('Long steps');
  await app.close();
});

test('a photograph beside a rating is kept, shown as what it is, and refused when it is no picture', async () => {
  const store = Store.open(':memory:');
  const app = await buildApp({ store });
  const athlete_id = makeAthlete(store, 'Wren');
  const repetition_id = makeRepetition(store, makeSession(store, '2026-03-12'), athlete_id, { contact_time_ms: 120 });
  const url = `/api/coach/repetitions/${repetition_id}/ratings/arms/photo`;
  const put = (payload: Buffer, type = 'image/jpeg') =>
    app.inject({ method: 'PUT', url, payload, headers: { 'content-type': type } });
  expect((await put(Buffer.from('<svg onload=1>'))).json()).toMatchObject({ code: 'PHOTO_UNREADABLE' });
  expect((await app.inject({ url })).json()).toMatchObject({ code: 'PHOTO_NOT_FOUND' });
  expect((await put(PNG)).statusCode).toBe(200);
  const shown = await app.inject({ url });
  expect([shown.headers['content-type'], shown.rawPayload.equals(PNG)]).toEqual(['image/png', true]);
  const ratings = (await app.inject({ url: `/api/coach/repetitions/${repetition_id}/ratings` })).json();
  expect(ratings.items).toEqual([{ repetition_id, aspect: 'arms', rating: null, note: '', has_photo: true }]);
  await app.inject({ method: 'DELETE', url });
  expect((await app.inject({ url })).statusCode).toBe(404);
  await app.close();
});
