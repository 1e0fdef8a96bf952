import { expect, test } from 'vitest';
import { addDays } from '../../../shared/dates.ts';
import { addFocus } from '../../../api/coach/athlete-records.ts';
import { addSprintTest } from '../../../api/coach/tests/sprint-tests.ts';
import { buildApp } from '../../../api/server/app.ts';
import { Store } from '../../../api/store/store.ts';
import type { Report } from '../../../shared/schemas/coach/report.ts';
import { madeResult, makeAthlete, makeRepetition, makeSession } from './make-club.ts';

/** Contacts of a repetition, more than reach the line at 40 yd. */
const STEPS = 30;

async function club() {
  const store = Store.open(':memory:');
  const athlete_id = makeAthlete(store, 'Zofia Wiśniewska');
  addFocus(store, athlete_id, { focus: 'contact_time', from_date: '2026-02-01' });
  let repetition_id = 0;
  let session_id = 0;
  for (let week = 0; week < 6; week++) {
    const date = addDays('2026-02-02', 7 * week);
    session_id = makeSession(store, date);
    for (let k = 0; k < 4; k++) {
      repetition_id = makeRepetition(store, session_id, athlete_id, {
        contact_time_ms: 120 - week + ((k * 7) % 5),
        steps: STEPS,
      });
    }
    addSprintTest(store, { athlete_id, date, distance_m: 36.576, timing_method: 'beam', time_s: 5.3 - week * 0.04 });
  }
  return { store, athlete_id, session_id, repetition_id, app: await buildApp({ store }) };
}

test('each report is one page with at most five sentences, three pictures and the cautions', async () => {
  const { athlete_id, session_id, repetition_id, app } = await club();
  for (const address of [
    `repetition/${repetition_id}`,
    `session/${session_id}/${athlete_id}`,
    `month/${athlete_id}/2026-03`,
  ]) {
    const report = (await app.inject(`/api/coach/reports/${address}?length=yd&today=2026-03-15`)).json() as Report;
    expect({ [address]: report.pictures.length }).toEqual({ [address]: 3 });
    expect(report.sentences.length).toBeGreaterThanOrEqual(3);
    expect(report.sentences.length).toBeLessThanOrEqual(5);
    expect(report.cautions.map((caution) => caution.code)).toContain('STOP_ON_PAIN');
    for (const word of ['typical error', 'baseline', 'standard deviation', 'null', 'NaN', 'undefined']) {
      expect(report.sentences.join(' ')).not.toContain(word);
    }
    const pdf = await app.inject(`/api/coach/reports/${address}/page.pdf?length=yd&today=2026-03-15`);
    expect(pdf.headers['content-type']).toBe('application/pdf');
    const text = pdf.rawPayload.toString('latin1');
    expect(text.startsWith('%PDF-')).toBe(true);
    expect(text.match(/\/Type \/Page\b/g)).toHaveLength(1);
  }
  await app.close();
});

test('the opening says what was run in the unit asked for', async () => {
  const { repetition_id, app } = await club();
  const opening = async (unit: string) =>
    ((await app.inject(`/api/coach/reports/repetition/${repetition_id}?length=${unit}`)).json() as Report).sentences[0];
  // Of the contacts made here some lie beyond the line: run-out, no steps of the course.
  const { contacts } = madeResult({ contact_time_ms: 120, steps: STEPS });
  const steps = contacts.filter((contact) => contact.distance_m! <= 36.576).length;
  expect(steps).toBeLessThan(STEPS);
  expect(await opening('yd')).toBe(`40 yd in 5.20 s, in ${steps} steps.`);
  // Forty yards are no whole number of metres: the course keeps its name.
  expect(await opening('m')).toBe(`40 yd in 5.20 s, in ${steps} steps.`);
  await app.close();
});

test('a report about nothing is refused with what to do', async () => {
  const { session_id, app, store } = await club();
  const other = makeAthlete(store, 'Somebody');
  const answer = await app.inject(`/api/coach/reports/session/${session_id}/${other}`);
  expect(answer.statusCode).toBe(422);
  expect(answer.json()).toMatchObject({ ok: false, code: 'REPORT_EMPTY' });
  expect((await app.inject('/api/coach/reports/repetition/9999')).statusCode).toBe(404);
  await app.close();
});
