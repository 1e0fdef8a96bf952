import { expect, test } from 'vitest';
import type { FieldRepetition, FieldView } from '../../shared/schemas/coach/field-view.ts';
import { assignTimes, type HandTime } from '../../web/pages/coach/field/assign-times.ts';

const STOPPED = Date.parse('2026-11-24T17:00:05.000Z');

/** A view with one athlete whose newest repetition ended so many seconds after the stop. */
function viewOf(latest: { repetition_id: number; after_s: number; time_s: number | null } | null): FieldView {
  const repetition = latest && {
    repetition_id: latest.repetition_id,
    time_s: latest.time_s,
    rest_from_utc: new Date(STOPPED + 1000 * latest.after_s).toISOString(),
  };
  return { session_id: 3, athletes: [{ athlete_id: 7, latest: repetition as FieldRepetition | null }] } as FieldView;
}
const taken = (change: Partial<HandTime> = {}): HandTime => ({
  session_id: 3,
  athlete_id: 7,
  name: 'Wren Abara',
  time_s: 5.03,
  stopped_ms: STOPPED,
  after_repetition_id: 40,
  repetition_id: null,
  ...change,
});
const given = (times: HandTime[], view: FieldView, ahead_ms = 0) =>
  assignTimes(times, view, ahead_ms).map((time) => time.repetition_id);

test('a time goes to the repetition that came in since the watch was started', () => {
  expect(given([taken()], viewOf({ repetition_id: 41, after_s: 0.4, time_s: null }))).toEqual([41]);
});
test('it waits while only the repetition before it is there, long over', () => {
  expect(given([taken()], viewOf({ repetition_id: 40, after_s: -180, time_s: null }))).toEqual([null]);
  expect(given([taken()], viewOf(null))).toEqual([null]);
});
test('a result that was in before the stop was tapped is the timed one where it ended beside it', () => {
  const time = taken({ after_repetition_id: 41 });
  expect(given([time], viewOf({ repetition_id: 41, after_s: -2, time_s: null }))).toEqual([41]);
});
test('a repetition that has a time keeps it', () => {
  expect(given([taken()], viewOf({ repetition_id: 41, after_s: 0, time_s: 4.98 }))).toEqual([null]);
});
test('of two waiting times only one is given to a repetition', () => {
  const view = viewOf({ repetition_id: 41, after_s: 0, time_s: null });
  expect(given([taken(), taken({ time_s: 5.1 })], view)).toEqual([41, null]);
});
test('what a sensor recorded at another time of the day waits for the word of the coach', () => {
  expect(given([taken()], viewOf({ repetition_id: 41, after_s: 3600, time_s: null }))).toEqual([null]);
});
test('a device whose clock is off by minutes gives the same repetition', () => {
  const ahead_ms = 25 * 60_000;
  const view = viewOf({ repetition_id: 41, after_s: 25 * 60 + 0.4, time_s: null });
  expect(given([taken()], view, ahead_ms)).toEqual([41]);
  expect(given([taken()], view, 0)).toEqual([null]);
});
test('times of other sessions and athletes are left as they are', () => {
  const view = viewOf({ repetition_id: 41, after_s: 0, time_s: null });
  expect(given([taken({ session_id: 4 }), taken({ athlete_id: 8 })], view)).toEqual([null, null]);
});
