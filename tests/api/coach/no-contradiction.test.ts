import { describe, expect, test } from 'vitest';
import { addFocus } from '../../../api/coach/athlete-records.ts';
import { courseView } from '../../../api/coach/judgement/course-view.ts';
import { fieldView } from '../../../api/coach/judgement/field-view.ts';
import { monthReport } from '../../../api/coach/report/month-report.ts';
import { repetitionReport } from '../../../api/coach/report/repetition-report.ts';
import { sessionReport } from '../../../api/coach/report/session-report.ts';
import { Store } from '../../../api/store/store.ts';
import { addDays } from '../../../shared/dates.ts';
import { normal } from '../../helpers/random.ts';
import { makeAthlete, makeRepetition, makeSession } from './make-club.ts';

const FOCUS_FROM = '2026-02-02';
const SESSIONS = 12;

/** A season of two evenings a week: contact time from 120 ms by the given change, once the focus begins. */
function season(seed: number, change_ms: number) {
  const store = Store.open(':memory:');
  const z = normal(seed);
  const athlete_id = makeAthlete(store, 'Wren');
  addFocus(store, athlete_id, { focus: 'contact_time', from_date: FOCUS_FROM });
  let [session_id, repetition_id, date] = [0, 0, ''];
  for (let s = 0; s < SESSIONS; s++) {
    date = addDays('2026-01-19', Math.round(3.5 * s));
    session_id = makeSession(store, date);
    const level = 120 + z() + (date >= FOCUS_FROM ? change_ms : 0);
    for (let k = 0; k < 3; k++) {
      repetition_id = makeRepetition(store, session_id, athlete_id, {
        contact_time_ms: level + 1.5 * z(),
        side_ms: 3 * z(),
        speed_max_mps: 8 + 0.08 * z(),
      });
    }
  }
  return { store, athlete_id, session_id, repetition_id, date };
}

describe('no two sentences of a day say different things', () => {
  test.each([-9, -3, 0, 0, 3, 9].map((change, i) => [change, i + 1]))(
    'with a change of %i ms, seed %i',
    (change, seed) => {
      const { store, athlete_id, session_id, repetition_id, date } = season(seed, change);
      const [athlete] = fieldView(store, session_id).athletes;
      const contact = athlete.judgements.find((judgement) => judgement.quantity === 'contact_time_ms')!;
      const page = courseView(store, athlete_id, {}, date).course!;
      const month = monthReport(store, athlete_id, { month: date.slice(0, 7), today: date }, 'm');
      // One before and after: the same on field screen, page and paper.
      expect(page.block).toEqual(contact.since);
      expect(month.sentences).toContain(page.sentence);
      // One sentence on the repetition: the same on the field screen, its paper and the session's.
      expect(repetitionReport(store, repetition_id, 'm').sentences).toContain(athlete.sentence);
      const ofSession = sessionReport(store, session_id, athlete_id, 'm').sentences.join(' ');
      expect(ofSession.toLowerCase()).toContain(athlete.sentence.toLowerCase());
      // Words follow the data they stand for.
      for (const { quantity, kind, wanted, sentence, since } of athlete.judgements) {
        expect([quantity, /^(Better|Worse)/.test(sentence)]).toEqual([quantity, wanted !== null]);
        if (wanted !== null) expect(sentence.startsWith(wanted ? 'Better' : 'Worse')).toBe(true);
        if (kind === 'as usual') expect(sentence).toMatch(/as usual|as earlier today/);
        if (since) expect(/no change beyond chance/.test(since.sentence)).toBe(since.beyond === null);
        if (since?.beyond) expect(since.low > 0 || since.high < 0).toBe(true);
      }
    },
  );
});
