import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { compareSides, type SideSpread } from '../../../dsp/athlete/side-difference.ts';
import { judgeRepetition } from '../../../dsp/athlete/judge-repetition.ts';
import type { SideView } from '../../../shared/schemas/coach/course-view.ts';
import type { RepetitionValueRow } from '../../store/coach-tables.ts';
import { sideSentence } from '../words/side-sentence.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import { normalBasis } from './normal.ts';
import type { PlainValue } from './value-history.ts';

type Sided = Pick<
  RepetitionValueRow,
  'left_value' | 'left_sd' | 'left_n' | 'right_value' | 'right_sd' | 'right_n' | 'side_difference' | 'side_difference_u'
>;

/** Quantities whose side difference is one of its own, with published variation; of others only the athlete's own is known. */
const SIDE_DIFFERENCES: Record<string, string> = {
  contact_time_ms: 'contact_time_side_difference_ms',
  step_time_ms: 'step_time_side_difference_ms',
};
/** 95 % of a normal distribution. */
const TWO_SIDED = 1.96;

/**
 * Left against right in one repetition, between neighbouring steps, and against the athlete's usual difference.
 * @param history the same quantity of earlier repetitions, oldest first
 */
export function sidesOf(
  value: Sided & { quantity: string },
  history: readonly PlainValue[],
  options: { date: string; growing: boolean; length?: LengthUnit; words?: JudgementWords },
): SideView | null {
  return sidesOfSeveral(value.quantity, [value], history, options);
}

/**
 * Left against right over several repetitions of one session.
 * @param history the same quantity of repetitions before them, oldest first
 * @returns null where a side has fewer than two contacts, or the quantity is itself a difference of sides
 */
export function sidesOfSeveral(
  quantity: string,
  values: readonly Sided[],
  history: readonly PlainValue[],
  options: { date: string; growing: boolean; length?: LengthUnit; words?: JudgementWords },
): SideView | null {
  if (quantity.includes('side_difference')) return null;
  const left = poolSide(values.map((value) => [value.left_value, value.left_sd, value.left_n]));
  const right = poolSide(values.map((value) => [value.right_value, value.right_sd, value.right_n]));
  const compared = left && right && compareSides(left, right);
  if (!compared) return null;
  const paired = pairedOf(values);
  const { difference, low, high } = paired ?? compared;
  const beyond_chance = low > 0 || high < 0;
  const view = {
    left: compared.left.mean,
    right: compared.right.mean,
    difference,
    low,
    high,
    within_side_sd: compared.within_side_sd,
    beyond_chance,
    beyond_within_side: beyond_chance && Math.abs(difference) > compared.within_side_sd,
    ...usualOf(quantity, paired && values, history, options),
  };
  return { ...view, sentence: sideSentence(quantity, view, options.length, options.words) };
}

/** The differences between neighbouring steps, put together; null where one could not be paired. */
function pairedOf(values: readonly Sided[]): { difference: number; low: number; high: number } | null {
  let [sum, squares] = [0, 0];
  for (const { side_difference, side_difference_u } of values) {
    if (side_difference === null || side_difference_u === null) return null;
    sum += side_difference;
    squares += side_difference_u ** 2;
  }
  const difference = sum / values.length;
  const half = (TWO_SIDED * Math.sqrt(squares)) / values.length;
  return { difference, low: difference - half, high: difference + half };
}

/** The athlete's usual difference, and whether this one leaves it beyond chance; null until it is known. */
function usualOf(
  quantity: string,
  values: readonly Sided[] | null,
  history: readonly PlainValue[],
  { date, growing }: { date: string; growing: boolean },
): Pick<SideView, 'usual' | 'beyond_usual'> {
  const name = SIDE_DIFFERENCES[quantity] ?? `${quantity}, left minus right`;
  const earlier = history.flatMap((entry) =>
    entry.side_difference === null || entry.session_date >= date ? [] : [{ ...entry, value: entry.side_difference }],
  );
  const today = history.flatMap((entry) =>
    entry.side_difference !== null && entry.session_date === date ? [entry.side_difference] : [],
  );
  const normal = values && normalBasis(name, earlier, [], date, growing);
  if (!normal) return { usual: null, beyond_usual: null };
  const session = [...today, ...values.map((value) => value.side_difference!)];
  return { usual: normal.baseline.centre, beyond_usual: judgeRepetition(normal.baseline, session).beyond };
}

type SideTriple = [value: number | null, sd: number | null, n: number | null];

/** One side of several repetitions put together: means weighted by contacts, variances pooled within repetitions. */
function poolSide(parts: readonly SideTriple[]): SideSpread | null {
  let [n, sum, square, freedom] = [0, 0, 0, 0];
  for (const [value, sd, contacts] of parts) {
    if (value === null || sd === null || contacts === null || contacts < 2) continue;
    n += contacts;
    sum += contacts * value;
    square += (contacts - 1) * sd ** 2;
    freedom += contacts - 1;
  }
  if (n < 2) return null;
  const sd = Math.sqrt(square / freedom);
  const value = sum / n;
  return { mean: value, sd, n, cv_percent: value > 0 ? (100 * sd) / value : null };
}
