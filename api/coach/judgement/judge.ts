import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { judgeRepetition, type RepetitionVerdict } from '../../../dsp/athlete/judge-repetition.ts';
import type { SideView } from '../../../shared/schemas/coach/course-view.ts';
import type { BlockView, Judgement } from '../../../shared/schemas/coach/judgement.ts';
import type { RepetitionValueRow } from '../../store/coach-tables.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import { verdictSentence } from '../words/verdict-sentence.ts';
import { type AimOf, isWanted } from './aims.ts';
import { type NormalBasis, normalBasis, toNormal } from './normal.ts';
import { sidesOf } from './sides.ts';
import type { PlainValue } from './value-history.ts';

/** What is judged: the quantity's value over the repetition, and left and right. */
export type JudgedValue = Pick<
  RepetitionValueRow,
  | 'quantity'
  | 'value'
  | 'value_u'
  | 'left_value'
  | 'left_sd'
  | 'left_n'
  | 'right_value'
  | 'right_sd'
  | 'right_n'
  | 'side_difference'
  | 'side_difference_u'
>;

export interface JudgeOptions {
  /** Day of the repetition; values of that day are compared with but are no part of normal. */
  date: string;
  /** True for an adolescent. */
  growing: boolean;
  /** Which way each quantity should go for this athlete. */
  aimOf: AimOf;
  /** Before and after of the block, where it can be told. */
  since: BlockView | null;
  /** True for an athlete who is returning from an injury: the value stands alone. */
  returning: boolean;
  /** Unit of lengths in the sentences. */
  length?: LengthUnit;
  /** Of the language of the sentences. */
  words?: JudgementWords;
}

/** The part of a judgement that a mark of a repetition shows. */
export type MarkedValue = Pick<
  Judgement,
  | 'quantity'
  | 'value'
  | 'value_u'
  | 'normal'
  | 'change'
  | 'kind'
  | 'beyond'
  | 'rule'
  | 'wanted'
  | 'today'
  | 'beyond_in_a_row'
>;

/**
 * Compares one quantity of one repetition with the athlete's normal and with earlier today.
 * @param history the same quantity at the same effort and course, oldest first, all before this repetition
 */
export function markValue(
  { quantity, value, value_u }: Pick<JudgedValue, 'quantity' | 'value' | 'value_u'>,
  history: readonly PlainValue[],
  { date, growing, returning, aimOf }: Pick<JudgeOptions, 'date' | 'growing' | 'returning' | 'aimOf'>,
): MarkedValue {
  const before = history.filter((entry) => entry.session_date < date);
  const today = todayIn(history, date);
  const normal = returning ? null : normalBasis(quantity, before, today, date, growing);
  const spoken = normal && verdictsOf(normal, [...today.map((entry) => entry.value), value]);
  const last = spoken?.last ?? null;
  return {
    quantity,
    value,
    value_u,
    normal: normal && toNormal(normal),
    change: last?.change ?? null,
    kind: kindOf(returning, normal, last),
    beyond: last?.beyond ?? null,
    rule: last?.rule ?? null,
    wanted: last?.beyond ? isWanted(aimOf(quantity), last.beyond, normal!.baseline.centre) : null,
    today: normal && last && todayOf(normal, last, spoken!.judged),
    beyond_in_a_row: spoken?.in_a_row ?? 0,
  };
}

/**
 * Judges one quantity of one repetition: compared as a mark, left with right, before with after of the block, and said.
 * @param history as of `markValue`
 */
export function judge(value: JudgedValue, history: readonly PlainValue[], options: JudgeOptions): Judgement {
  const { length, words } = options;
  const compared = options.returning ? null : sidesOf(value, history, options);
  const judgement = {
    ...markValue(value, history, options),
    since: options.returning ? null : options.since,
    left: sideOf(value.left_value, value.left_sd, value.left_n),
    right: sideOf(value.right_value, value.right_sd, value.right_n),
    sides: compared && comparedSides(compared),
    side_sentence: compared?.sentence ?? '',
    earlier_today: todayIn(history, options.date).map((entry) => entry.value),
  };
  return { ...judgement, sentence: verdictSentence(judgement, length, words) };
}

const todayIn = (history: readonly PlainValue[], date: string): PlainValue[] =>
  history.filter((entry) => entry.session_date === date);

function comparedSides({ difference, usual, beyond_chance, beyond_usual }: SideView): Judgement['sides'] {
  return { difference, usual, beyond_chance, beyond_usual };
}

/** The verdict after the last of today's values, and how many in a row were beyond in the same direction. */
function verdictsOf(normal: NormalBasis, values: readonly number[]) {
  // On a first day the earlier repetitions are the baseline itself and only this one is judged.
  const session = normal.basis === 'earlier today' ? values.slice(-1) : values;
  const last = judgeRepetition(normal.baseline, session);
  let in_a_row = last.beyond === null ? 0 : 1;
  for (let length = session.length - 1; last.beyond !== null && length > 0; length--) {
    if (judgeRepetition(normal.baseline, session.slice(0, length)).beyond !== last.beyond) break;
    in_a_row += 1;
  }
  return { last, in_a_row, judged: session.length };
}

/** As usual: this repetition and today's together stay within one typical error of the centre. */
function kindOf(returning: boolean, normal: NormalBasis | null, last: RepetitionVerdict | null): Judgement['kind'] {
  if (returning) return 'no comparison';
  if (!normal || !last) return 'first';
  if (last.beyond !== null) return 'changed';
  const { typical_error } = normal.baseline;
  const near = Math.abs(last.change) <= typical_error && Math.abs(last.today_change) <= typical_error;
  return near ? 'as usual' : 'may be chance';
}

function todayOf(normal: NormalBasis, last: RepetitionVerdict, n: number): Judgement['today'] {
  return {
    value: normal.baseline.centre + last.today_change,
    n,
    change: last.today_change,
    low: last.today_low,
    high: last.today_high,
    certainty: last.certainty,
  };
}

function sideOf(value: number | null, sd: number | null, n: number | null): Judgement['left'] {
  return value === null ? null : { value, sd, n: n ?? 0 };
}
