import { describe, expect, test } from 'vitest';
import { compare } from '../../../api/coach/desk/compare.ts';
import { setReturning } from '../../../api/coach/returning.ts';
import { Store } from '../../../api/store/store.ts';
import { addDays } from '../../../shared/dates.ts';
import { makeAthlete, makeRepetition, makeSession } from './make-club.ts';

const START = '2026-01-05';
/** A day's and a repetition's own, ms: fixed, so that every run is the same. */
const DAYS = [0.6, -0.4, 0.3, -0.7, 0.5, -0.2];
const OWN = [-0.8, 0.3, 0.5];

/** Six weekly evenings of three repetitions: contact of 120 ms, 108 from the fourth on. */
function club() {
  const store = Store.open(':memory:');
  const athlete_id = makeAthlete(store, 'Wren');
  const sessions = DAYS.map((day, s) => {
    const session_id = makeSession(store, addDays(START, 7 * s));
    const ids = OWN.map((own) =>
      makeRepetition(store, session_id, athlete_id, { contact_time_ms: (s < 3 ? 120 : 108) + day + own }),
    );
    return { session_id, ids };
  });
  const block = (from: number, to: number) => `${athlete_id}.${addDays(START, 7 * from)}.${addDays(START, 7 * to)}`;
  return { store, athlete_id, sessions, block };
}

const contactOf = (comparison: ReturnType<typeof compare>) =>
  comparison.quantities.find(({ quantity }) => quantity === 'contact_time_ms')!;

describe('a comparison', () => {
  test('of two blocks tells the change that was made, with its interval', () => {
    const { store, block } = club();
    const found = compare(store, { kind: 'blocks', a: block(0, 2), b: block(3, 5) });
    expect([found.a.sessions, found.a.repetitions, found.b.sessions]).toEqual([3, 9, 3]);
    const contact = contactOf(found);
    const made = -12 + (0.5 - 0.2 - 0.7 - (0.6 - 0.4 + 0.3)) / 3;
    expect(contact.difference).toBeCloseTo(made, 6);
    expect(contact.told).toBe('beyond chance');
    expect(contact.low!).toBeLessThan(-12);
    expect(contact.high!).toBeGreaterThan(-12);
    expect(contact.sentence).toMatch(/^B 12 ms shorter than A \(\d+ to \d+ ms\): beyond chance\.$/);
  });

  test('of two repetitions of one evening calls what varies anyway chance', () => {
    const { store, athlete_id, sessions } = club();
    const key = (k: number) => `${athlete_id}.${sessions[0].session_id}.${sessions[0].ids[k]}`;
    const found = compare(store, { kind: 'repetitions', a: key(0), b: key(1) });
    expect(contactOf(found).told).toBe('may be chance');
    expect(found.a.steps).toHaveLength(20);
    expect(found.a.title).toBe('repetition 1 of 5 January');
  });

  test('within an athlete counts the repeatable part of the measuring error, between two all of it', () => {
    const { store, athlete_id, sessions } = club();
    const other = makeAthlete(store, 'Robin');
    const theirs = makeRepetition(store, sessions[0].session_id, other, { contact_time_ms: 118 });
    // 3 ms a contact in all (as made), 1 ms of it repeatable.
    store.database.exec("UPDATE contacts SET other_fields = json_set(other_fields, '$.contact_time_repeatable_ms', 1)");
    const key = (k: number) => `${athlete_id}.${sessions[0].session_id}.${sessions[0].ids[k]}`;
    const within = compare(store, { kind: 'repetitions', a: key(0), b: key(1) });
    const between = compare(store, {
      kind: 'repetitions',
      a: key(0),
      b: `${other}.${sessions[0].session_id}.${theirs}`,
    });
    // Twelve of the twenty made-up contacts are at speed.
    expect(contactOf(within).measuring_half).toBeCloseTo(1.96 * Math.sqrt(2 / 12), 6);
    // What stays, sqrt(9 - 1) for each of two feet, does not average out.
    expect(contactOf(between).measuring_half).toBeCloseTo(1.96 * Math.sqrt(2 * (1 / 12 + 8 / 2)), 6);
    expect(within.a.steps[0].values.contact_time_ms.u).toBe(1);
    expect(between.a.steps[0].values.contact_time_ms.u).toBe(3);
    expect(between.same_athlete).toBe(false);
    expect(between.notes.join(' ')).toContain('Two athletes');
  });

  test('of unlike efforts shows the values and judges nothing', () => {
    const { store, athlete_id, sessions } = club();
    const easy = makeRepetition(
      store,
      sessions[0].session_id,
      athlete_id,
      { contact_time_ms: 150 },
      { effort_percent: 60 },
    );
    const key = (id: number) => `${athlete_id}.${sessions[0].session_id}.${id}`;
    const found = compare(store, { kind: 'repetitions', a: key(sessions[0].ids[0]), b: key(easy) });
    expect(found.condition).toBeNull();
    expect(found.quantities.length).toBeGreaterThan(3);
    expect(new Set(found.quantities.map(({ told }) => told))).toEqual(new Set(['not judged']));
    expect(found.notes[0]).toMatch(/^Not the same effort or course/);
  });

  test('judges nothing of an athlete who is returning from an injury', () => {
    const { store, athlete_id, block } = club();
    setReturning(store, athlete_id, { since_date: START, note: '' });
    const found = compare(store, { kind: 'blocks', a: block(0, 2), b: block(3, 5) });
    expect(new Set(found.quantities.map(({ told }) => told))).toEqual(new Set(['not judged']));
    expect(new Set(found.quantities.map(({ sentence }) => sentence))).toEqual(new Set(['']));
    expect(found.notes[0]).toContain('returning from an injury');
    expect(found.cautions[0].code).toBe('RETURNING');
  });

  test('says where nothing was measured', () => {
    const { store, block } = club();
    const found = compare(store, { kind: 'blocks', a: block(-9, -8), b: block(3, 5) });
    expect(found.quantities).toEqual([]);
    expect(found.notes).toEqual(['Nothing was measured in A.']);
  });
});
