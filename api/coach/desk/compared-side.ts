import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { Contact } from '../../../shared/analysis.ts';
import { STEP_QUANTITIES, uncertaintyOf } from '../../../shared/fields.ts';
import type { ComparedStep, ComparisonQuestion } from '../../../shared/schemas/coach/comparison.ts';
import type { RunCondition } from '../../../shared/schemas/coach/course-view.ts';
import type { RepetitionLine } from '../../../shared/schemas/repetition.ts';
import { listContacts } from '../../store/analyses.ts';
import { listRepetitions } from '../../store/repetitions.ts';
import type { Store } from '../../store/store.ts';
import { conditionKeyOf } from '../judgement/run-conditions.ts';

/** The analysed repetitions that a side of a comparison stands for, and its name. */
export interface Side {
  key: string;
  athlete_id: number;
  title: string;
  lines: RepetitionLine[];
}

/** Reads a side's key; one that leads nowhere has no repetitions. */
export function readSide(
  store: Store,
  kind: ComparisonQuestion['kind'],
  key: string,
  words: JudgementWords = JUDGEMENT_EN,
): Side {
  const say = words.coach.judged;
  const [first, second, third = ''] = key.split('.');
  const athlete_id = Number(first);
  const analysed = (lines: RepetitionLine[]) => lines.filter((line) => line.analysis_id !== null);
  if (kind === 'blocks') {
    const lines = analysed(listRepetitions(store, { athlete_id, from: second, to: third }));
    return { key, athlete_id, title: words.range(words.date(second, third), words.date(third, third)), lines };
  }
  const lines = analysed(listRepetitions(store, { athlete_id, session_id: Number(second) }));
  if (kind === 'sessions') {
    const date = lines[0]?.session_date;
    return { key, athlete_id, title: say('session_of', { date: date ? words.date(date, date) : '' }), lines };
  }
  const own = lines.filter((line) => line.repetition_id === Number(third));
  const [line] = own;
  const date = line?.session_date ?? '';
  const title = say('repetition_of', { n: line?.order_number ?? null, date: words.date(date, date) });
  return { key, athlete_id, title, lines: own };
}

/** The repetitions of one effort and course. */
export function atCondition(lines: readonly RepetitionLine[], condition: RunCondition): RepetitionLine[] {
  return lines.filter((line) => conditionKeyOf(line) === condition.key);
}

/** Contacts of each repetition up to the end of its course: slowing behind the line is no part of it. */
export function contactsOf(store: Store, lines: readonly RepetitionLine[]): Contact[][] {
  return lines.map((line) =>
    listContacts(store, line.analysis_id!).filter(
      ({ distance_m }) => distance_m === null || distance_m <= (line.course_distance_m ?? Infinity),
    ),
  );
}

/**
 * Step by step: of one repetition its own values with their repeatable error where the athlete is the same, else all of it; of
 * several the mean of each step with the standard error of that mean.
 */
export function comparedSteps(repetitions: readonly Contact[][], repeatable: boolean): ComparedStep[] {
  const last = Math.max(0, ...repetitions.map((contacts) => contacts.at(-1)?.step ?? 0));
  const steps: ComparedStep[] = [];
  for (let step = 1; step <= last; step++) {
    const contacts = repetitions.flatMap((list) => list.filter((contact) => contact.step === step));
    // The end of a run that few reached is no mean of the others.
    if (contacts.length === 0 || contacts.length < repetitions.length / 2) continue;
    const values: ComparedStep['values'] = {};
    for (const quantity of STEP_QUANTITIES) {
      const known = contacts.filter((contact) => contact[quantity] !== null);
      if (known.length === 0) continue;
      const numbers = known.map((contact) => contact[quantity] as number);
      const single = known.length === 1;
      values[quantity] = {
        value: average(numbers),
        u: single ? measuringError(known[0], quantity, repeatable) : standardError(numbers),
      };
    }
    const sides = new Set(contacts.map((contact) => contact.side));
    const distances = contacts.flatMap(({ distance_m }) => (distance_m === null ? [] : [distance_m]));
    steps.push({
      step,
      side: sides.size === 1 ? contacts[0].side : 'unknown',
      distance_m: distances.length === contacts.length ? average(distances) : null,
      values,
    });
  }
  return steps;
}

type StepQuantity = (typeof STEP_QUANTITIES)[number];

/** What one contact's value is uncertain by: between athletes all of it, within one the part that changes from contact to contact. */
export function measuringError(contact: Contact, quantity: StepQuantity, repeatable: boolean): number | null {
  const u = uncertaintyOf(contact, quantity);
  if (!repeatable || u === null) return u;
  return quantity === 'contact_time_ms' ? (contact.contact_time_repeatable_ms ?? u) : u;
}

function average(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function standardError(values: readonly number[]): number {
  const centre = average(values);
  const square = values.reduce((sum, value) => sum + (value - centre) ** 2, 0) / (values.length - 1);
  return Math.sqrt(square / values.length);
}
