import { describe, expect, test } from 'vitest';
import { addFocus } from '../../../api/coach/athlete-records.ts';
import { DEFAULT_COACH_SETTINGS, writeCoachSettings } from '../../../api/coach/coach-settings.ts';
import { athleteNow } from '../../../api/coach/desk/athlete-now.ts';
import { groupStanding } from '../../../api/coach/desk/group-standing.ts';
import { sessionVerdicts } from '../../../api/coach/desk/session-verdicts.ts';
import { courseView } from '../../../api/coach/judgement/course-view.ts';
import { fieldView } from '../../../api/coach/judgement/field-view.ts';
import { setReturning } from '../../../api/coach/returning.ts';
import { setSessionPlan } from '../../../api/coach/plans/session-plans.ts';
import { addSprintTest } from '../../../api/coach/tests/sprint-tests.ts';
import { Store } from '../../../api/store/store.ts';
import { addDays } from '../../../shared/dates.ts';
import { makeAthlete, makeRepetition, makeSession } from './make-club.ts';

const FOCUS_FROM = '2026-02-02';
/** A day's own level and a repetition's own, ms: fixed, so that every sentence is known beforehand. */
const DAYS = [0.6, -0.4, 0.3, -0.7, 0.5, -0.2, 0.1, -0.5];
const REPETITIONS = [-1, 0.5, 0.7];

/** Eight evenings of three repetitions: contact time 120 ms before the block and 111 in it. */
function club() {
  const store = Store.open(':memory:');
  const athlete_id = makeAthlete(store, 'Wren');
  addFocus(store, athlete_id, { focus: 'contact_time', from_date: FOCUS_FROM });
  const sessions = DAYS.map((day, s) => {
    const date = addDays('2026-01-20', Math.round(3.5 * s));
    const session_id = makeSession(store, date);
    const repetition_ids = REPETITIONS.map((own) =>
      makeRepetition(store, session_id, athlete_id, {
        contact_time_ms: 120 + day + own - (date >= FOCUS_FROM ? 9 : 0),
      }),
    );
    return { session_id, date, repetition_ids };
  });
  return { store, athlete_id, sessions, last: sessions.at(-1)! };
}

describe('how an athlete stands', () => {
  test('is told by the focus first, with the sentence of the page over time, and at most three numbers', () => {
    const { store, athlete_id, last } = club();
    const now = athleteNow(store, athlete_id, last.date);
    expect(now.focus).toMatchObject({ focus: 'contact_time', quantity: 'contact_time_ms', from_date: FOCUS_FROM });
    expect(now.numbers.map(({ quantity }) => quantity)).toEqual(['contact_time_ms', 'speed_max_mps', 'step_rate_hz']);
    const [contact] = now.numbers;
    expect(contact.course).toEqual(courseView(store, athlete_id, {}, last.date).course);
    expect(contact.course.sentence).toMatch(/^Better: contact from 12\d to 11\d ms since 2 February/);
    // The last day: the mean of its three repetitions, as they were made, to what the made-up steps add.
    expect(contact.judgement.today!.n).toBe(3);
    expect(contact.date).toBe(last.date);
  });

  test('says of the last day against normal what the verdict on its last repetition says', () => {
    const { store, athlete_id, last } = club();
    const [contact] = athleteNow(store, athlete_id, last.date).numbers;
    const [athlete] = fieldView(store, last.session_id).athletes;
    expect(contact.judgement).toEqual(athlete.judgements[0]);
    const { kind } = contact.judgement;
    expect(/^As usual/.test(contact.against_normal)).toBe(kind === 'as usual');
    expect(/may be chance/.test(contact.against_normal)).toBe(kind === 'may be chance');
    expect(/^(Better|Worse)/.test(contact.against_normal)).toBe(contact.judgement.wanted !== null);
  });

  test('names the next session only where a plan names the athlete and they have not run in it', () => {
    const { store, athlete_id, last } = club();
    expect(athleteNow(store, athlete_id, last.date).next_session).toBeNull();
    const session_id = makeSession(store, addDays(last.date, 3));
    setSessionPlan(store, session_id, { template: null, sets: [], athlete_ids: [athlete_id] });
    expect(athleteNow(store, athlete_id, last.date).next_session).toMatchObject({ session_id });
    makeRepetition(store, session_id, athlete_id, { contact_time_ms: 111 });
    expect(athleteNow(store, athlete_id, last.date).next_session).toBeNull();
  });

  test('compares nothing while the athlete is returning from an injury', () => {
    const { store, athlete_id, last } = club();
    setReturning(store, athlete_id, { since_date: last.date, note: '' });
    const now = athleteNow(store, athlete_id, last.date);
    for (const { course, judgement, against_normal } of now.numbers) {
      expect(course.block).toBeNull();
      expect(judgement.kind).toBe('no comparison');
      expect(against_normal).toBe('No comparison while returning.');
    }
    expect(now.cautions[0].code).toBe('RETURNING');
    expect(groupStanding(store, last.date).items[0]).toMatchObject({ returning: true, change: null });
  });
});

describe('a session by athlete', () => {
  test('has the verdict of the hardest effort, not of an easy run at the end, and a mark for every repetition', () => {
    const { store, athlete_id, last } = club();
    const before = sessionVerdicts(store, last.session_id).athletes[0];
    makeRepetition(store, last.session_id, athlete_id, { contact_time_ms: 170 }, { effort_percent: 60 });
    const [athlete] = sessionVerdicts(store, last.session_id).athletes;
    expect(athlete.sentence).toBe(before.sentence);
    expect(athlete.marks).toHaveLength(4);
    expect(athlete.marks[3].judged).toMatchObject({ kind: 'first', beyond: null, normal_low: null });
    const marked = athlete.marks[2].judged!;
    expect(marked.normal_low!).toBeLessThan(marked.normal_high!);
    expect(athlete.sentence).toContain(`${Math.round(marked.value)} ms`);
  });
});

describe('a group', () => {
  test('says who changed as their own page does, who is due, and the best of comparable times', () => {
    const { store, athlete_id, last } = club();
    makeAthlete(store, 'New');
    writeCoachSettings(store, {
      ...DEFAULT_COACH_SETTINGS,
      plan_limits: { ...DEFAULT_COACH_SETTINGS.plan_limits, sprint_test_interval_days: 14, focus_weeks_max: 1 },
    });
    const timed = { athlete_id, distance_m: 36.576, distance_unit: 'yd', timing_method: 'hand' } as const;
    addSprintTest(store, { ...timed, date: '2026-01-05', time_s: 5.1 });
    addSprintTest(store, { ...timed, date: '2026-01-20', time_s: 5.2 });
    addSprintTest(store, { ...timed, date: '2026-01-12', time_s: 4.1, distance_m: 30, distance_unit: 'm' });
    const { items } = groupStanding(store, last.date);
    expect(items.map(({ name }) => name)).toEqual(['New', 'Wren']);
    expect(items[0]).toMatchObject({ change: null, last_session: null, last_test: null });
    const [, wren] = items;
    expect(wren.change!.sentence).toBe(courseView(store, athlete_id, {}, last.date).course!.sentence);
    expect(wren.change!.wanted).toBe(true);
    expect(wren.focus_over).toBe(true);
    expect(wren.test_overdue_days).toBeGreaterThan(0);
    expect(wren.last_test).toMatchObject({ best_s: 5.1, best_date: '2026-01-05', time_s: 5.2, date: '2026-01-20' });
    expect(athleteNow(store, athlete_id, last.date).last_test).toEqual(wren.last_test);
  });
});
