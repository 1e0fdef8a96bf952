import type { Judgement, Normal } from '../../shared/schemas/coach/judgement.ts';
import type { RepetitionValueRow } from './coach-tables.ts';
import { normalOf } from './normal.ts';
import type { HistoryValue } from './value-history.ts';
import { verdictSentence } from './verdict-sentence.ts';

/**
 * Judges one quantity of one repetition against the athlete's normal and against earlier today.
 * @param value the quantity of the repetition
 * @param history the same quantity at the same effort and course, oldest first: earlier days and earlier today
 * @param date the day of the repetition; values of that day are compared with but are no part of normal
 * @param stop_after repetitions in a row beyond normal after which the sentence says to consider stopping
 */
export function judge(
  value: Pick<RepetitionValueRow, 'quantity' | 'value' | 'value_u' | LeftRight>,
  history: readonly HistoryValue[],
  date: string,
  stop_after: number | null,
): Judgement {
  const before = history.filter((entry) => entry.session_date < date);
  const today = history.filter((entry) => entry.session_date === date);
  const normal = normalOf(value.quantity, before, today, date);
  const beyond = normal ? beyondNormal(value.value, normal) : null;
  let beyond_in_a_row = beyond === null ? 0 : 1;
  for (const entry of [...today].reverse()) {
    if (beyond === null || beyondNormal(entry.value, normal!) !== beyond) break;
    beyond_in_a_row += 1;
  }
  const judgement = {
    quantity: value.quantity,
    value: value.value,
    value_u: value.value_u,
    normal,
    change: normal ? value.value - normal.centre : null,
    beyond,
    beyond_in_a_row,
    left: sideOf(value.left_value, value.left_sd, value.left_n),
    right: sideOf(value.right_value, value.right_sd, value.right_n),
    earlier_today: today.map((entry) => entry.value),
  };
  return { ...judgement, sentence: verdictSentence(judgement, stop_after) };
}

type LeftRight = 'left_value' | 'left_sd' | 'left_n' | 'right_value' | 'right_sd' | 'right_n';

function beyondNormal(value: number, normal: Normal): 'above' | 'below' | null {
  if (normal.n === 0) return null;
  const change = value - normal.centre;
  if (Math.abs(change) <= normal.flag_from) return null;
  return change > 0 ? 'above' : 'below';
}

function sideOf(value: number | null, sd: number | null, n: number | null): Judgement['left'] {
  return value === null ? null : { value, sd, n: n ?? 0 };
}
