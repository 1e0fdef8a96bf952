import { describe, expect, test } from 'vitest';
import { addFocus } from '../../../api/coach/athlete-records.ts';
import { readCoachSettings, writeCoachSettings } from '../../../api/coach/coach-settings.ts';
import { fieldView } from '../../../api/coach/judgement/field-view.ts';
import { repetitionJudgements } from '../../../api/coach/judgement/repetition-judgements.ts';
import { retellField } from '../../../api/coach/judgement/retell.ts';
import { setReturning } from '../../../api/coach/returning.ts';
import { Store } from '../../../api/store/store.ts';
import { JUDGEMENT_WORDS } from '../../../shared/messages/judgement-languages.ts';
import type { FieldView } from '../../../shared/schemas/coach/field-view.ts';
import { makeAthlete, makeRepetition, makeSession } from './make-club.ts';

const { en, de } = JUDGEMENT_WORDS;
const NOISE = [-2, 1, 2, -1, 0, 2, -2, 1, 1, -1, 2, -2];

/** Evenings that end in every kind of verdict: last contact times of tonight, in ms. */
const EVENINGS: Record<string, number[]> = {
  'nobody has run': [],
  'as usual': [121],
  'may be chance': [125],
  'beyond chance, three times': [134, 134, 134],
  'shorter, alone': [104],
  'shorter, together': [113, 113, 112, 113],
};

function evening(
  tonights: number[],
  options: { past?: number; returning?: boolean } = {},
): { store: Store; view: FieldView } {
  const store = Store.open(':memory:');
  const { plan_limits } = readCoachSettings(store);
  writeCoachSettings(store, { plan_limits, stop_rule: { beyond_in_a_row: 3, speed_loss_percent: 2.5 } });
  const athlete_id = makeAthlete(store, 'Wren');
  addFocus(store, athlete_id, { focus: 'contact_time', from_date: '2026-03-01' });
  const past = ['2026-03-02', '2026-03-05', '2026-03-09'].slice(0, options.past ?? 3);
  past.forEach((date, i) => {
    const session = makeSession(store, date);
    for (let k = 0; k < 4; k++) makeRepetition(store, session, athlete_id, { contact_time_ms: 120 + NOISE[4 * i + k] });
  });
  const tonight = makeSession(store, '2026-03-12');
  for (const contact_time_ms of tonights) makeRepetition(store, tonight, athlete_id, { contact_time_ms });
  if (options.returning) setReturning(store, athlete_id, { since_date: '2026-03-10', note: '' });
  return { store, view: fieldView(store, tonight) };
}

const sentencesOf = ({ athletes }: FieldView) =>
  athletes.flatMap(({ sentence, stop, verdict, judgements }) => [
    sentence,
    stop,
    verdict.next.text,
    ...judgements.flatMap((judgement) => [judgement.sentence, judgement.side_sentence]),
  ]);
/** Figures with their marks, to compare what two languages say; ordinals and counts in words are none. */
const figuresOf = (text: string) =>
  (text.match(/\d+(?:[.,]\d+)?(?= ms| %| m\/s)/g) ?? []).map((figure) => figure.replace(',', '.'));

describe.each(Object.entries(EVENINGS))('an evening: %s', (_, tonights) => {
  test('told again in English it is the same to the letter', () => {
    const { view } = evening(tonights);
    expect(retellField(view, en)).toEqual(view);
  });

  test('told in German every sentence has the figures of the English one', () => {
    const { view } = evening(tonights);
    const german = sentencesOf(retellField(view, de));
    expect(german).toHaveLength(sentencesOf(view).length);
    for (const [i, english] of sentencesOf(view).entries()) {
      expect(figuresOf(german[i]).sort(), german[i]).toEqual(figuresOf(english).sort());
      expect(german[i] === '').toBe(english === '');
    }
  });
});

test('a first day, and somebody who returns from an injury, are told the same again', () => {
  for (const view of [evening([121, 124], { past: 0 }).view, evening([134], { returning: true }).view]) {
    expect(retellField(view, en)).toEqual(view);
  }
});

test('German says better and worse, and the focus by its German name', () => {
  const [better] = retellField(evening(EVENINGS['shorter, together']).view, de).athletes;
  expect(better.sentence).toMatch(/^Besser: Kontakt 113 ms, heute \d+ ms kürzer als üblich \(\d+ bis \d+ ms\)/);
  expect(better.focus?.name).toBe('kurzer Kontakt');
  const [worse] = retellField(evening(EVENINGS['beyond chance, three times']).view, de).athletes;
  expect(worse.sentence).toMatch(/^Schlechter: Kontakt 134 ms, heute \d+ ms länger als üblich .*, 3\. Lauf in Folge/);
  expect(worse.stop).toMatch(/^Aufhören erwägen: /);
});

test('the page of a repetition says what the field says, in German too', () => {
  const { store, view } = evening(EVENINGS['shorter, together']);
  const [athlete] = retellField(view, de).athletes;
  expect(repetitionJudgements(store, athlete.latest!.repetition_id, 'm', de).sentence).toBe(athlete.sentence);
});

test('both languages have the same words for the same quantities', () => {
  expect(Object.keys(de.directions).sort()).toEqual(Object.keys(en.directions).sort());
  for (const [quantity, { more, less }] of Object.entries(de.directions)) expect(more, quantity).not.toBe(less);
});
