import { describe, expect, test } from 'vitest';
import { fieldView } from '../../../api/coach/judgement/field-view.ts';
import { setRating } from '../../../api/coach/judgement/ratings.ts';
import { addFocus } from '../../../api/coach/athlete-records.ts';
import { PLAN_TEMPLATES } from '../../../api/coach/plans/plan-templates.ts';
import { setSessionPlan } from '../../../api/coach/plans/session-plans.ts';
import { Store } from '../../../api/store/store.ts';
import { makeAthlete, makeRepetition, makeSession } from './make-club.ts';

/** An athlete with three past sessions of four repetitions around 120 ms, and tonight's session. */
function club() {
  const store = Store.open(':memory:');
  const athlete_id = makeAthlete(store, 'Wren');
  const past = ['2026-03-02', '2026-03-05', '2026-03-09'];
  const noise = [-2, 1, 2, -1, 0, 2, -2, 1, 1, -1, 2, -2];
  past.forEach((date, i) => {
    const session = makeSession(store, date);
    for (let k = 0; k < 4; k++) makeRepetition(store, session, athlete_id, { contact_time_ms: 120 + noise[4 * i + k] });
  });
  const tonight = makeSession(store, '2026-03-12');
  return { store, athlete_id, tonight };
}
const contactOf = (view: ReturnType<typeof fieldView>) =>
  view.athletes[0].judgements.find((judgement) => judgement.quantity === 'contact_time_ms')!;

describe('the field view', () => {
  test('a repetition like those before is within what is usual', () => {
    const { store, athlete_id, tonight } = club();
    makeRepetition(store, tonight, athlete_id, { contact_time_ms: 121 });
    const contact = contactOf(fieldView(store, tonight));
    expect(contact.beyond).toBeNull();
    expect(contact.normal).toMatchObject({ n: 12, sessions: 3, provisional: false, basis: 'earlier days' });
    expect(contact.sentence).toMatch(/within what is usual/);
  });

  test('a much longer contact is beyond chance, and the third in a row says to consider stopping', () => {
    const { store, athlete_id, tonight } = club();
    for (let k = 0; k < 3; k++) makeRepetition(store, tonight, athlete_id, { contact_time_ms: 134 });
    const view = fieldView(store, tonight);
    const contact = contactOf(view);
    expect(contact).toMatchObject({ beyond: 'above', beyond_in_a_row: 3 });
    expect(contact.sentence).toMatch(
      /^Contact 1\d ms longer than your normal, beyond chance; third repetition in a row: consider stopping\.$/,
    );
    expect(view.athletes[0].stop).toContain('3 times in a row');
    expect(view.athletes[0].sentence).toBe(contact.sentence);
  });

  test('an athlete on the first day is compared with earlier today, and it is said', () => {
    const { store, tonight } = club();
    const fresh = makeAthlete(store, 'Aspen');
    makeRepetition(store, tonight, fresh, { contact_time_ms: 130 });
    const first = fieldView(store, tonight).athletes[0].judgements[0];
    expect(first.normal).toBeNull();
    expect(first.sentence).toContain('nothing to compare with yet');
    makeRepetition(store, tonight, fresh, { contact_time_ms: 131 });
    const second = fieldView(store, tonight).athletes[0].judgements[0];
    expect(second.normal).toMatchObject({ basis: 'earlier today', provisional: true, n: 1 });
    expect(second.sentence).toContain('earlier today');
    expect(second.sentence).toContain('only 1 repetition');
  });

  test('half effort is not compared with full effort, nor 20 yards with 40', () => {
    const { store, athlete_id, tonight } = club();
    makeRepetition(store, tonight, athlete_id, { contact_time_ms: 150 }, { effort_percent: 50 });
    expect(contactOf(fieldView(store, tonight)).normal).toBeNull();
    makeRepetition(store, tonight, athlete_id, { contact_time_ms: 150 }, { course_distance_m: 18.288 });
    expect(contactOf(fieldView(store, tonight)).normal).toBeNull();
  });

  test('a loss of speed against the first two of the day meets the stop rule', () => {
    const { store, athlete_id, tonight } = club();
    makeRepetition(store, tonight, athlete_id, { contact_time_ms: 120, speed_max_mps: 8 });
    makeRepetition(store, tonight, athlete_id, { contact_time_ms: 120, speed_max_mps: 8 });
    makeRepetition(store, tonight, athlete_id, { contact_time_ms: 120, speed_max_mps: 7.7 });
    expect(fieldView(store, tonight).athletes[0].stop).toMatch(/speed 3\.7 % below the first two \(you stop at 3 %\)/);
  });

  test('the focus decides which quantity is shown and is kept with its rating', () => {
    const { store, athlete_id, tonight } = club();
    addFocus(store, athlete_id, { focus: 'evenness', from_date: '2026-03-01' });
    const repetition_id = makeRepetition(store, tonight, athlete_id, { contact_time_ms: 120, side_ms: 14 });
    setRating(store, repetition_id, 'evenness', { rating: 4, note: 'looked level' });
    setRating(store, repetition_id, 'arms', { rating: 2, note: '' });
    const [athlete] = fieldView(store, tonight).athletes;
    expect(athlete.focus).toMatchObject({ focus: 'evenness', quantity: 'contact_time_side_difference_ms' });
    expect(athlete.judgements.map((judgement) => judgement.quantity)).toEqual([
      'contact_time_ms',
      'contact_time_side_difference_ms',
      'speed_max_mps',
    ]);
    expect(athlete.judgements[1].value).toBeCloseTo(14, 0);
    expect(athlete.sentence).toMatch(/longer on the left/);
    expect(athlete.ratings).toHaveLength(2);
    expect(setRating(store, repetition_id, 'arms', { rating: null, note: '' })).toHaveLength(1);
  });

  test('the plan says who runs in which order and what comes next', () => {
    const { store, athlete_id, tonight } = club();
    const second = makeAthlete(store, 'Rowan');
    const template = PLAN_TEMPLATES.find((entry) => entry.key === 'speed_300')!;
    setSessionPlan(store, tonight, { template: template.key, sets: template.sets, athlete_ids: [second, athlete_id] });
    for (let k = 0; k < 3; k++) makeRepetition(store, tonight, athlete_id, { contact_time_ms: 120 });
    const view = fieldView(store, tonight);
    expect(view.athletes.map((athlete) => athlete.name)).toEqual(['Rowan', 'Wren']);
    expect(view.athletes[1]).toMatchObject({ done: 3, planned: 13, next_set: { kind: 'speed' } });
    expect(view.athletes[0]).toMatchObject({ done: 0, latest: null, sentence: 'No repetition yet.' });
    expect(view.latest_athlete_id).toBe(athlete_id);
  });

  test('a growing athlete loses old repetitions, a grown one keeps them', () => {
    const store = Store.open(':memory:');
    const ids = [makeAthlete(store, 'Young', '2012-01-01'), makeAthlete(store, 'Grown', '1990-01-01')];
    const old = makeSession(store, '2025-12-01');
    for (const id of ids) for (let k = 0; k < 6; k++) makeRepetition(store, old, id, { contact_time_ms: 120 + k });
    const tonight = makeSession(store, '2026-03-12');
    for (const id of ids) makeRepetition(store, tonight, id, { contact_time_ms: 122 });
    const view = fieldView(store, tonight);
    expect(view.athletes.map((athlete) => athlete.judgements[0].normal?.n ?? 0)).toEqual([0, 6]);
  });
});

test('an answer is made anew after every write and only then', () => {
  const { store, athlete_id, tonight } = club();
  const first = fieldView(store, tonight);
  expect(fieldView(store, tonight).athletes).toBe(first.athletes);
  const repetition_id = makeRepetition(store, tonight, athlete_id, { contact_time_ms: 120 });
  const second = fieldView(store, tonight);
  expect(second.athletes[0].done).toBe(1);
  setRating(store, repetition_id, 'arms', { rating: 3, note: '' });
  expect(fieldView(store, tonight).athletes[0].ratings).toHaveLength(1);
});
