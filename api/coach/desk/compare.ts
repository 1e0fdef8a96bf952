import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import { compareBetween, compareWithin, type LevelDifference, levelOf } from '../../../dsp/athlete/compare-levels.ts';
import { type BaselineValue, knownComponents } from '../../../dsp/athlete/baseline.ts';
import type { Contact } from '../../../shared/analysis.ts';
import { addDays, dayNumber } from '../../../shared/dates.ts';
import type {
  ComparedQuantity,
  ComparedSide,
  Comparison,
  ComparisonQuestion,
} from '../../../shared/schemas/coach/comparison.ts';
import type { RunCondition } from '../../../shared/schemas/coach/course-view.ts';
import type { RepetitionLine } from '../../../shared/schemas/repetition.ts';
import type { Mounting } from '../../../shared/words.ts';
import { getAthlete } from '../../store/athletes.ts';
import type { Store } from '../../store/store.ts';
import { toBaselineValue } from '../judgement/normal.ts';
import { asCondition, conditionKeyOf, runConditions } from '../judgement/run-conditions.ts';
import { plainHistories } from '../judgement/value-history.ts';
import { returningSince } from '../returning.ts';
import { cautionsFor } from '../words/cautions.ts';
import { differenceSentence } from '../words/difference-sentence.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import { atCondition, comparedSteps, contactsOf, readSide, type Side } from './compared-side.ts';
import { comparisonNotes } from './comparison-notes.ts';
import { measuringOfMean } from './measuring-error.ts';

const QUANTITIES = [
  'contact_time_ms',
  'flight_time_ms',
  'step_rate_hz',
  'step_length_m',
  'speed_max_mps',
  'contact_time_side_difference_ms',
  'acceleration_end_m',
  'time_s',
];
/** How an athlete varies is read from so many days before the earlier side on. */
const HISTORY_DAYS = 180;
/** It is looked at when asked for: told from 99 % on; likely from 90 % on as everywhere (words/verdict-sentence.ts). */
const TOLD = { beyond: 0.995, likely: 0.9 };

/** Any two repetitions, sessions or blocks beside each other, with the certainty of every difference. */
export function compare(store: Store, question: ComparisonQuestion, words: JudgementWords = JUDGEMENT_EN): Comparison {
  const { kind, length = 'm' } = question;
  const [a, b] = [readSide(store, kind, question.a, words), readSide(store, kind, question.b, words)];
  const conditions = sharedConditions(store, a, b);
  const condition = conditions.find(({ key }) => key === question.condition) ?? conditions[0] ?? null;
  // Two single repetitions are shown whatever they are; of several only like ones have a mean.
  const chosen = (side: Side) =>
    condition ? atCondition(side.lines, condition) : kind === 'repetitions' ? side.lines : [];
  const sides = [a, b].map((side) => ({ ...side, lines: chosen(side) })) as [Side, Side];
  const same_athlete = a.athlete_id === b.athlete_id;
  const contacts = sides.map((side) => contactsOf(store, side.lines));
  const shown = sides.map((side, i) => sideOf(store, side, contacts[i], same_athlete)) as [ComparedSide, ComparedSide];
  const returning = shown.some((side) => side.returning);
  const judged = condition !== null && !returning;
  return {
    kind,
    a: shown[0],
    b: shown[1],
    same_athlete,
    conditions,
    condition,
    quantities: sides.every(({ lines }) => lines.length > 0)
      ? comparedQuantities(store, sides, contacts, judged ? condition : null, { length, returning, words })
      : [],
    notes: comparisonNotes(
      shown,
      sides,
      { kind, same_athlete, alike: condition !== null, measured: [a.lines.length, b.lines.length] },
      words,
    ),
    cautions: cautionsFor(shown, words),
  };
}

function sharedConditions(store: Store, a: Side, b: Side): RunCondition[] {
  const count = (side: Side, key: string) => side.lines.filter((line) => conditionKeyOf(line) === key).length;
  const least = (key: string) => Math.min(count(a, key), count(b, key));
  return runConditions(store, a.athlete_id)
    .filter(({ key }) => least(key) > 0)
    .map((condition) => ({ ...condition, repetitions: count(a, condition.key) + count(b, condition.key) }))
    .sort((x, y) => (y.effort_percent ?? 0) - (x.effort_percent ?? 0) || least(y.key) - least(x.key));
}

function sideOf(
  store: Store,
  { key, athlete_id, title, lines }: Side,
  contacts: readonly Contact[][],
  repeatable: boolean,
): ComparedSide {
  const dates = lines.map((line) => line.session_date).sort();
  return {
    key,
    athlete_id,
    name: getAthlete(store, athlete_id).name,
    returning: returningSince(store, athlete_id) !== null,
    title,
    first_date: dates[0] ?? null,
    last_date: dates.at(-1) ?? null,
    sessions: new Set(lines.map((line) => line.session_id)).size,
    repetitions: lines.length,
    contacts: contacts.reduce((sum, list) => sum + list.length, 0),
    mountings: mountingsOf(store, lines),
    steps: comparedSteps(contacts, repeatable),
  };
}

function mountingsOf(store: Store, lines: readonly RepetitionLine[]): Mounting[] {
  const rows = store
    .prepare(
      `SELECT DISTINCT r.mounting FROM repetition_recordings x JOIN recordings r ON r.recording_id = x.recording_id
       WHERE x.repetition_id IN (SELECT value FROM json_each(?)) ORDER BY 1`,
    )
    .all(JSON.stringify(lines.map((line) => line.repetition_id))) as { mounting: Mounting }[];
  return rows.map((row) => row.mounting);
}

interface ValueRow {
  analysis_id: number;
  quantity: string;
  value: number;
  value_u: number | null;
  n: number;
}

/** @param condition null where nothing is judged: the values then stand side by side */
function comparedQuantities(
  store: Store,
  sides: readonly [Side, Side],
  contacts: readonly Contact[][][],
  condition: RunCondition | null,
  { length, returning, words }: { length: LengthUnit; returning: boolean; words: JudgementWords },
): ComparedQuantity[] {
  const within = sides[0].athlete_id === sides[1].athlete_id;
  const known = sides.map((side, i) => valuesOf(store, side, contacts[i]));
  const histories = condition ? sides.map((side) => historiesOf(store, side.athlete_id, sides, condition)) : null;
  return QUANTITIES.flatMap((quantity) => {
    const rows = known.map((values) => values.filter((row) => row.quantity === quantity));
    if (rows.some((list) => list.length === 0)) return [];
    const [a, b] = rows.map((list) => list.map(({ baseline }) => baseline));
    const u = rows.map((list) => measuringOfMean(quantity, list, within));
    const measuring_u = u[0] === null || u[1] === null ? null : Math.hypot(u[0], u[1]);
    const components = histories?.map((history, i) => {
      const values = (history.get(quantity) ?? []).map(toBaselineValue);
      return knownComponents(quantity, levelOf([a, b][i]), values);
    });
    const judged =
      components?.[0] && components[1]
        ? within
          ? compareWithin(a, b, components[0])
          : compareBetween(
              { values: a, components: components[0] },
              { values: b, components: components[1] },
              measuring_u ?? 0,
            )
        : null;
    const compared = {
      quantity,
      a: levelOf(a),
      b: levelOf(b),
      difference: levelOf(b) - levelOf(a),
      measuring_half: measuring_u === null ? null : 1.96 * measuring_u,
      low: judged?.low ?? null,
      high: judged?.high ?? null,
      certainty: judged?.certainty ?? null,
      told: toldOf(judged),
    };
    // Of an athlete who is returning from an injury nothing is said of the difference.
    return [{ ...compared, sentence: returning ? '' : differenceSentence(compared, length, words) }];
  });
}

function toldOf(judged: LevelDifference | null): ComparedQuantity['told'] {
  if (judged === null || !Number.isFinite(judged.certainty)) return 'not judged';
  if (judged.certainty > TOLD.beyond) return 'beyond chance';
  return judged.certainty >= TOLD.likely ? 'likely' : 'may be chance';
}

/** Every stored value of a side's repetitions, with what its measuring error is made of. */
function valuesOf(store: Store, { lines }: Side, of_lines: readonly Contact[][]) {
  const byAnalysis = new Map(lines.map((line) => [line.analysis_id!, line]));
  const contacts = new Map(of_lines.map((list, i) => [lines[i].analysis_id!, list]));
  const rows = store
    .prepare(
      `SELECT analysis_id, quantity, value, value_u, n FROM repetition_values
       WHERE analysis_id IN (SELECT value FROM json_each(?)) ORDER BY analysis_id`,
    )
    .all(JSON.stringify([...byAnalysis.keys()])) as ValueRow[];
  return rows.map((row) => {
    const line = byAnalysis.get(row.analysis_id)!;
    const baseline: BaselineValue = {
      value: row.value,
      session: line.session_id,
      day: dayNumber(line.session_date),
      contacts: row.n,
    };
    return { ...row, baseline, contacts: contacts.get(row.analysis_id)! };
  });
}

/** What an athlete's variation is read from: like repetitions about both sides. */
function historiesOf(store: Store, athlete_id: number, sides: readonly Side[], condition: RunCondition) {
  const dates = sides.flatMap(({ lines }) => lines.map((line) => line.session_date)).sort();
  const limits = { from: addDays(dates[0], -HISTORY_DAYS), to: dates.at(-1)! };
  return plainHistories(store, athlete_id, QUANTITIES, asCondition(condition), limits);
}
