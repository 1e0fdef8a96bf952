import { afterEach, beforeEach, expect, test } from 'vitest';
import type { TimingAnswer } from '../../shared/schemas/timing.ts';
import { openTestApi, type TestApi } from '../helpers/test-api.ts';

let api: TestApi;
let ids: { athlete_id: number; session_id: number };
beforeEach(async () => {
  api = await openTestApi();
  ids = await api.athleteAndSession();
});
afterEach(() => api.close());

async function send(csv: string, query = '', language = 'en'): Promise<TimingAnswer> {
  const answer = await api.app.inject({
    method: 'POST',
    url: `/api/timings?file_name=gates.csv${query}`,
    payload: csv,
    headers: { 'content-type': 'text/csv', 'accept-language': language },
  });
  expect(answer.statusCode).toBe(200);
  return answer.json();
}

const planned = async (fields = {}) =>
  (await api.call('POST', '/repetitions', { ...ids, ...fields })).body.repetition_id;
const stored = async (id: number) => (await api.call('GET', `/repetitions/${id}`)).body;

const GATES = `athlete,date,repetition,distance_m,time_s,method
Rosa Quill,2026-03-02,1,10,1.92,beam
Rosa Quill,2026-03-02,1,30,4.31,beam
Rosa Quill,2026-03-02,2,30,4.4,hand
Nobody Known,2026-03-02,1,30,4.2,beam
`;

test('a look at a timing file says what belongs where and changes nothing', async () => {
  const first = await planned();
  const second = await planned();
  const answer = await send(GATES);
  expect(answer.applied).toBe(false);
  expect(
    answer.matched.map(({ repetition_id, time_s, method, action }) => [repetition_id, time_s, method, action]),
  ).toEqual([
    [first, 4.31, 'beam', 'set'],
    [second, 4.4, 'hand', 'set'],
  ]);
  expect(answer.unmatched).toHaveLength(1);
  expect(answer.unmatched[0]).toEqual({
    lines: [5],
    why: 'Nobody Known, 2026-03-02, repetition 1: no such repetition',
  });
  expect((await stored(first)).course_time_s).toBeNull();
});

test('what fits nothing, what cannot be read and what is noted are said in the language of who sends the file', async () => {
  const only = await planned();
  const wrong = `${GATES}Rosa Quill,2026-03-02,1,30,4.2,hand\nRosa Quill,2026-03-02,1,40,dns,beam\n`;
  const answer = await send(wrong, '&apply=true', 'de');
  expect(answer.unmatched.at(-1)!.why).toBe('Nobody Known, 2026-03-02, Lauf 1: gibt es nicht');
  expect(answer.rejected).toEqual([
    { line: 7, column: 'time_s', found: '"dns"', expected: 'eine Zeit über null, etwa 1,92 oder 1:02,3' },
  ]);
  expect((await stored(only)).notes).toBe(
    'Auch gemessen: 4,2 s über 30 m, von Hand (gates.csv).\nZeiten der Datei auf 0,01 s.',
  );
});

test('times are put in with splits, method and the step they were read to', async () => {
  const first = await planned({ course_distance_m: 30 });
  const second = await planned({ course_distance_m: 40 });
  await send(GATES, '&apply=true');
  expect(await stored(first)).toMatchObject({
    course_distance_m: 30,
    course_time_s: 4.31,
    splits: [{ distance_m: 10, split_time_s: 1.92 }],
    timing_method: 'beam',
  });
  // 30 m are a split of a 40 m course, not its time.
  expect(await stored(second)).toMatchObject({
    course_distance_m: 40,
    course_time_s: null,
    splits: [{ distance_m: 30, split_time_s: 4.4 }],
    timing_method: 'hand',
  });
  expect((await stored(second)).notes).toContain('0.1 s');
});

test('a hand time never takes the place of an electronic one: it is kept as a note, once', async () => {
  const id = await planned({ course_distance_m: 30, course_time_s: 4.31, timing_method: 'beam' });
  const hand = 'athlete,repetition,distance_m,time_s,method\nRosa Quill,1,30,4.1,hand\n';
  const answer = await send(hand, '&apply=true');
  expect(answer.matched[0].action).toBe('keep');
  await send(hand, '&apply=true');
  const { course_time_s, timing_method, notes } = await stored(id);
  expect([course_time_s, timing_method]).toEqual([4.31, 'beam']);
  expect(notes.match(/4\.1 s/g)).toHaveLength(1);
});

test('a file without times is refused with what was found', async () => {
  const answer = await api.app.inject({
    method: 'POST',
    url: '/api/timings?file_name=notes.csv',
    payload: 'rain all day\n',
    headers: { 'content-type': 'text/csv' },
  });
  expect(answer.statusCode).toBeGreaterThanOrEqual(400);
  expect(answer.json()).toMatchObject({ ok: false, code: 'TIMING_COLUMNS_MISSING' });
});
