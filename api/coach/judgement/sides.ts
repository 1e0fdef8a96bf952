import { compareSides, type SideSpread } from '../../../dsp/athlete/side-difference.ts';
import type { SideView } from '../../../shared/schemas/coach/course-view.ts';
import type { RepetitionValueRow } from '../../store/coach-tables.ts';
import { sideSentence } from '../words/course-sentences.ts';
import type { LengthUnit } from '../words/quantity-words.ts';

type Sided = Pick<RepetitionValueRow, 'left_value' | 'left_sd' | 'left_n' | 'right_value' | 'right_sd' | 'right_n'>;

/** Left against right in one repetition, contact by contact. */
export function sidesOf(value: Sided & { quantity: string }, length: LengthUnit = 'm'): SideView | null {
  return sidesOfSeveral(value.quantity, [value], length);
}

/**
 * Left against right over several repetitions of one session.
 * @returns null where a side has fewer than two contacts, or the quantity is itself a difference of sides
 */
export function sidesOfSeveral(quantity: string, values: readonly Sided[], length: LengthUnit = 'm'): SideView | null {
  if (quantity.includes('side_difference')) return null;
  const left = poolSide(values.map((value) => [value.left_value, value.left_sd, value.left_n]));
  const right = poolSide(values.map((value) => [value.right_value, value.right_sd, value.right_n]));
  const compared = left && right && compareSides(left, right);
  if (!compared) return null;
  const view = {
    left: compared.left.mean,
    right: compared.right.mean,
    difference: compared.difference,
    low: compared.low,
    high: compared.high,
    within_side_sd: compared.within_side_sd,
    beyond_chance: compared.beyond_chance,
    beyond_within_side: compared.beyond_within_side,
  };
  return { ...view, sentence: sideSentence(quantity, view, length) };
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
