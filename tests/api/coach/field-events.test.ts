import { afterAll, beforeAll, expect, test } from 'vitest';
import { openTestApi, type TestApi } from '../../helpers/test-api.ts';

let api: TestApi;
let address = '';
beforeAll(async () => {
  api = await openTestApi();
  address = await api.app.listen({ port: 0 });
});
afterAll(() => api.close());

test('a field screen is told at first, and after a write that changes its view; not after one that does not', async () => {
  const { session_id } = await api.athleteAndSession();
  const other = (await api.call('POST', '/sessions', { session_date: '2026-03-03' })).body.session_id;
  const leave = new AbortController();
  const answer = await fetch(`${address}/api/coach/sessions/${session_id}/field/events`, { signal: leave.signal });
  expect(answer.headers.get('content-type')).toContain('text/event-stream');
  let heard = '';
  const told = () => heard.split('event: changed').length - 1;
  const reading = (async () => {
    const decoder = new TextDecoder();
    for await (const bytes of answer.body!) heard += decoder.decode(bytes as Uint8Array, { stream: true });
  })().catch(() => {});
  await expect.poll(told).toBe(1);
  await api.call('PATCH', `/sessions/${other}`, { title: 'Another evening' });
  await new Promise((later) => setTimeout(later, 800));
  expect(told()).toBe(1);
  await api.call('PATCH', `/sessions/${session_id}`, { title: 'Tonight' });
  await expect.poll(told, { timeout: 3000 }).toBe(2);
  leave.abort();
  await reading;
});

test('listening to a session that is not there is refused', async () => {
  const answer = await fetch(`${address}/api/coach/sessions/9999/field/events`);
  expect(answer.status).toBe(404);
  expect((await answer.json()).code).toBe('SESSION_NOT_FOUND');
});
