import { judgeRepetition } from '../../../dsp/athlete/judge-repetition.ts';
import type { Judgement } from '../../../shared/schemas/coach/judgement.ts';
import type { RepetitionValueRow } from '../../store/coach-tables.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import { verdictSentence } from '../words/verdict-sentence.ts';
import { isWorse } from '../focuses.ts';
import { type NormalBasis, normalBasis, toNormal } from './normal.ts';
import { sidesOf } from './sides.ts';
import type { PlainValue } from './value-history.ts';

/** What is judged: the quantity's value over the repetition, and left and right. */
export type JudgedValue = Pick<
  RepetitionValueRow,
  'quantity' | 'value' | 'value_u' | 'left_value' | 'left_sd' | 'left_n' | 'right_value' | 'right_sd' | 'right_n'
>;

export interface JudgeOptions {
  /** Day of the repetition; values of that day are compared with but are no part of normal. */
  date: string;
  /** True for an adolescent. */
  growing: boolean;
  /** Repetitions in a row beyond normal after which the sentence says to consider stopping; null: never. */
  stop_after: number | null;
  /** Unit of lengths in the sentences. */
  length?: LengthUnit;
}

/**
 * Judges one quantity of one repetition against the athlete's normal and against earlier today.
 * @param history the same quantity at the same effort and course, oldest first, all before this repetition
 */
export function judge(value: JudgedValue, history: readonly PlainValue[], options: JudgeOptions): Judgement {
  const { date, growing, stop_after, length } = options;
  const before = history.filter((entry) => entry.session_date < date);
  const today = history.filter((entry) => entry.session_date === date);
  const normal = normalBasis(value.quantity, before, today, date, growing);
  const values = [...today.map((entry) => entry.value), value.value];
  const { beyond, beyond_in_a_row } = verdictOf(normal, values);
  const judgement = {
    quantity: value.quantity,
    value: value.value,
    value_u: value.value_u,
    normal: normal ? toNormal(normal) : null,
    change: normal ? value.value - normal.baseline.centre : null,
    beyond,
    worse: beyond !== null && isWorse(value.quantity, beyond, value.value),
    beyond_in_a_row,
    left: sideOf(value.left_value, value.left_sd, value.left_n),
    right: sideOf(value.right_value, value.right_sd, value.right_n),
    side_sentence: sidesOf(value, length)?.sentence ?? '',
    earlier_today: today.map((entry) => entry.value),
  };
  return { ...judgement, sentence: verdictSentence(judgement, stop_after, length) };
}

/** The verdict on the last of today's values, and how many in a row were beyond in the same direction. */
function verdictOf(
  normal: NormalBasis | null,
  values: readonly number[],
): Pick<Judgement, 'beyond' | 'beyond_in_a_row'> {
  if (!normal) return { beyond: null, beyond_in_a_row: 0 };
  // On a first day the earlier repetitions are the baseline itself and only this one is judged.
  const session = normal.basis === 'earlier today' ? values.slice(-1) : values;
  const { beyond } = judgeRepetition(normal.baseline, session);
  let beyond_in_a_row = beyond === null ? 0 : 1;
  for (let length = session.length - 1; beyond !== null && length > 0; length--) {
    if (judgeRepetition(normal.baseline, session.slice(0, length)).beyond !== beyond) break;
    beyond_in_a_row += 1;
  }
  return { beyond, beyond_in_a_row };
}

function sideOf(value: number | null, sd: number | null, n: number | null): Judgement['left'] {
  return value === null ? null : { value, sd, n: n ?? 0 };
}
