import { describe, expect, test } from 'vitest';
import { fieldView } from '../../../api/coach/judgement/field-view.ts';
import { readCoachSettings, writeCoachSettings } from '../../../api/coach/coach-settings.ts';
import { setRating } from '../../../api/coach/judgement/ratings.ts';
import { addFocus } from '../../../api/coach/athlete-records.ts';
import { setReturning } from '../../../api/coach/returning.ts';
import { planTemplates } from '../../../api/coach/plans/plan-templates.ts';
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
/** A coach's own stop rule: none comes with the house. */
function setStopRule(store: Store): void {
  const { plan_limits } = readCoachSettings(store);
  writeCoachSettings(store, { plan_limits, stop_rule: { beyond_in_a_row: 3, speed_loss_percent: 3 } });
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
    expect(contact).toMatchObject({ kind: 'as usual', wanted: null });
    expect(contact.sentence).toBe('Contact as usual: 121 ms.');
  });

  test('a much longer contact is beyond chance, and the third in a row says to consider stopping', () => {
    const { store, athlete_id, tonight } = club();
    setStopRule(store);
    for (let k = 0; k < 3; k++) makeRepetition(store, tonight, athlete_id, { contact_time_ms: 134 });
    const view = fieldView(store, tonight);
    const contact = contactOf(view);
    expect(contact).toMatchObject({ kind: 'changed', beyond: 'above', beyond_in_a_row: 3, wanted: false });
    expect(contact.sentence).toMatch(
      /^Worse: contact 134 ms, today 1\d ms longer than usual \(\d+ to \d+ ms\), third repetition in a row\.$/,
    );
    const [athlete] = view.athletes;
    expect(athlete.stop).toContain('3 times in a row');
    expect(athlete.sentence.startsWith(contact.sentence.slice(0, -1))).toBe(true);
    expect(athlete.verdict).toMatchObject({ quantity: 'contact_time_ms', wanted: false, next: { kind: 'stop' } });
  });

  test('a shorter contact is the wanted change, and the coach’s own cue stands with it', () => {
    const { store, athlete_id, tonight } = club();
    addFocus(store, athlete_id, { focus: 'contact_time', from_date: '2026-03-01', cue: 'hot ground' });
    for (let k = 0; k < 3; k++) makeRepetition(store, tonight, athlete_id, { contact_time_ms: 107 });
    const [athlete] = fieldView(store, tonight).athletes;
    expect(athlete.verdict).toMatchObject({
      kind: 'changed',
      wanted: true,
      next: { kind: 'keep', text: 'Keep: “hot ground”' },
    });
    expect(athlete.sentence).toMatch(/^Better: contact 107 ms, today 1\d ms shorter than usual/);
    expect(athlete.stop).toBe('');
  });

  test('an athlete who returns from an injury is compared with nothing, and the caution stands there', () => {
    const { store, athlete_id, tonight } = club();
    setReturning(store, athlete_id, { since_date: '2026-03-10', note: '' });
    for (let k = 0; k < 3; k++) makeRepetition(store, tonight, athlete_id, { contact_time_ms: 134 });
    const view = fieldView(store, tonight);
    const [athlete] = view.athletes;
    expect(athlete).toMatchObject({
      returning: true,
      sentence: 'Contact 134 ms.',
      verdict: { wanted: null, since: '' },
    });
    expect(athlete.judgements.every((j) => j.normal === null && j.since === null && j.side_sentence === '')).toBe(true);
    expect(view.cautions[0].code).toBe('RETURNING');
    setReturning(store, athlete_id, null);
    expect(fieldView(store, tonight).athletes[0].verdict.kind).toBe('changed');
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
    setStopRule(store);
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
    // Which side is longer, and which way it moved, are two things.
    expect(athlete.sentence).not.toMatch(/longer on the left.*longer on the (?:left|right)/);
    expect(athlete.ratings).toHaveLength(2);
    expect(setRating(store, repetition_id, 'arms', { rating: null, note: '' })).toHaveLength(1);
  });

  test('the plan says who runs in which order and what comes next', () => {
    const { store, athlete_id, tonight } = club();
    const second = makeAthlete(store, 'Rowan');
    const template = planTemplates().find((entry) => entry.key === 'short_sprints')!;
    setSessionPlan(store, tonight, { template: template.key, sets: template.sets, athlete_ids: [second, athlete_id] });
    for (let k = 0; k < 3; k++) makeRepetition(store, tonight, athlete_id, { contact_time_ms: 120 });
    const view = fieldView(store, tonight);
    expect(view.athletes.map((athlete) => athlete.name)).toEqual(['Rowan', 'Wren']);
    expect(view.athletes[1]).toMatchObject({ done: 3, planned: 8, next_set: { kind: 'speed' } });
    expect(view.athletes[0]).toMatchObject({ done: 0, latest: null, sentence: 'No repetition yet.' });
    expect(view.latest_athlete_id).toBe(athlete_id);
  });

  test('a sensor whose clock tells another day is asked about, and does not decide who ran last', () => {
    const { store, athlete_id, tonight } = club();
    const second = makeAthlete(store, 'Rowan');
    const lost = makeRepetition(store, tonight, second, { contact_time_ms: 120 });
    const right = makeRepetition(store, tonight, athlete_id, { contact_time_ms: 120 });
    const clock = store.prepare('UPDATE repetitions SET recorded_utc = ?, created_utc = ? WHERE repetition_id = ?');
    clock.run('2031-01-01T10:00:00.000Z', '2026-03-12T17:00:00.000Z', lost);
    clock.run('2026-03-12T17:05:00.000Z', '2026-03-12T17:06:00.000Z', right);
    const view = fieldView(store, tonight);
    expect(view.latest_athlete_id).toBe(athlete_id);
    const asked = view.athletes.find((athlete) => athlete.athlete_id === second)!.latest!.clock_question;
    expect(asked).toBe("The sensor's clock says 1 January 2031, the session is of 12 March. Which is right?");
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
