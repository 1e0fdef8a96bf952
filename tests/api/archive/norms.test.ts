/** Norms on their way to a club: what is trusted, and whom they are put beside. */
import { generateKeyPairSync } from 'node:crypto';
import { expect, test } from 'vitest';
import type { NormBand } from '../../../shared/schemas/coach/norms.ts';
import { fingerprint, openNorms, signNorms } from '../../../api/coach/norms/norms-document.ts';
import { besideOthers } from '../../../api/coach/norms/others-like.ts';
import { createAthlete } from '../../../api/store/athletes.ts';
import { createSession } from '../../../api/store/sessions.ts';
import { Store } from '../../../api/store/store.ts';
import { makeRepetition } from '../coach/make-club.ts';

const CELL: NormBand = {
  sex: 'female',
  age_from: 18,
  age_to: 20,
  effort_from: 95,
  effort_to: null,
  speed_from_mps: 7,
  people: 12,
  contacts: 300,
  mean: 117.123456,
  sd: 8,
  p05: 104,
  p50: 117,
  p95: 130,
};
const MINORS: NormBand = { ...CELL, age_from: 16, age_to: 18, mean: 125, p50: 125 };
const { privateKey } = generateKeyPairSync('ed25519');
const signed = () =>
  signNorms('Northern programme', [{ quantity: 'contact_time_ms', cells: [CELL, MINORS] }], privateKey);

test('norms are taken as they were signed, by the key that is trusted, and never of fewer than ten people', () => {
  const norms = signed();
  const opened = openNorms(norms, null);
  expect(opened.quantities[0].cells[0]).toMatchObject({ people: 12, mean: 117.1 });
  expect(openNorms(norms, norms.public_key)).toEqual(opened);
  expect(fingerprint(norms.public_key)).toMatch(/^([0-9a-f]{4} ){7}[0-9a-f]{4}$/);
  expect(() => openNorms({ ...norms, document: norms.document.replace('117.1', '107.1') }, null)).toThrow(
    'NORMS_UNTRUSTED.signature',
  );
  const other = signNorms('x', [], generateKeyPairSync('ed25519').privateKey);
  expect(() => openNorms(other, norms.public_key)).toThrow('NORMS_UNTRUSTED.key');
  const few = signNorms('x', [{ quantity: 'contact_time_ms', cells: [{ ...CELL, people: 9 }] }], privateKey);
  expect(() => openNorms(few, null)).toThrow('NORMS_UNTRUSTED.few');
});

test('an athlete stands beside people of the same sex, age, speed and effort; a minor only beside minors; whoever is not known, beside nobody', () => {
  const store = Store.open(':memory:');
  const norms = openNorms(signed(), null);
  const { session_id } = createSession(store, { session_date: '2026-03-02' });
  const runner = (name: string, fields: object, effort_percent = 100) => {
    const { athlete_id } = createAthlete(store, { name, ...fields });
    makeRepetition(store, session_id, athlete_id, { contact_time_ms: 110, speed_max_mps: 8 }, { effort_percent });
    return athlete_id;
  };
  const adult = runner('Iris Holm', { sex: 'female', birth_date: '2007-06-01' });
  const minor = runner('Wren Cole', { sex: 'female', birth_date: '2009-06-01' });
  const slow = runner('Lea Park', { sex: 'female', birth_date: '2007-06-01' }, 80);
  const other = runner('Tom Reed', { sex: 'male', birth_date: '2007-06-01' });
  const unknown = runner('Sam Lowe', { sex: 'female' });
  const of = (id: number, day = '2026-03-02') =>
    besideOthers(store, norms, id, day).map(({ band, own_contacts }) => [band.mean, own_contacts]);
  const { n } = store
    .prepare(
      'SELECT count(*) AS n FROM contacts JOIN repetitions USING (analysis_id) WHERE athlete_id = ? AND speed_mps >= 7 AND speed_mps < 8',
    )
    .get(adult) as { n: number };
  expect(n).toBeGreaterThan(5);
  expect(of(adult)).toEqual([[117.1, n]]);
  expect(of(minor)).toEqual([[125, n]]);
  // The day before an eighteenth birthday, and the day.
  expect(of(minor, '2027-05-31')).toEqual([[125, n]]);
  expect(of(minor, '2027-06-01')).toEqual([[117.1, n]]);
  expect([of(slow), of(other)]).toEqual([[], []]);
  expect(() => of(unknown)).toThrow('NORMS_NOT_FOUND.unknown');
  // A document from elsewhere may name what is no quantity: it is not asked for.
  const strange = { ...norms, quantities: [{ quantity: 'contact_time_ms) FROM athletes; --', cells: [CELL] }] };
  expect(besideOthers(store, strange, adult, '2026-03-02')).toEqual([]);
  store.close();
});
