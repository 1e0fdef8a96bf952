import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import type { Judgement } from '../../../shared/schemas/coach/judgement.ts';
import { changeRange } from './change-range.ts';
import { directionWords } from './direction-words.ts';
import { type LengthUnit, quantityWords, withUnit } from './quantity-words.ts';

/** From this certainty on a change that is not told yet is called likely. */
const LIKELY = 0.9;

/**
 * One plain sentence about the athlete on one quantity of one repetition, with direction, size, interval and use:
 * `Contact as usual: 107 ms.` or `Better: contact 101 ms, today 6 ms shorter than usual (2 to 10 ms).`
 */
export function verdictSentence(
  judgement: Omit<Judgement, 'sentence'>,
  length: LengthUnit = 'm',
  words: JudgementWords = JUDGEMENT_EN,
): string {
  const { quantity, value, normal, today, wanted, beyond_in_a_row: row } = judgement;
  const { subject } = directionWords(quantity, quantityWords(quantity, length).label, words);
  const figure = figureOf(quantity, value, length, words);
  if (judgement.kind === 'no comparison') return words.value_alone({ subject, figure });
  if (normal === null || today === null || judgement.change === null) {
    return words.nothing_to_compare({ subject, figure });
  }
  const than = normal.basis === 'earlier today' ? ('earlier today' as const) : ('usual' as const);
  const few = normal.provisional ? words.few(normal.n) : '';
  if (judgement.kind === 'as usual') return words.as_usual({ subject, figure, than, few });
  if (judgement.kind === 'may be chance') {
    const size = difference(quantity, judgement.change, length, words);
    return words.may_be_chance({ subject, figure, size, than, likely: isLikely(judgement), few });
  }
  const alone = judgement.rule === 'repetition';
  const size = difference(quantity, alone ? judgement.change : today.change, length, words);
  const range = alone ? '' : changeRange({ quantity, low: today.low, high: today.high }, length, words);
  return words.changed({ subject, figure, size, than, alone, range, row, wanted, few });
}

/** A value with its unit; left against right says which side is longer, since a bare difference reads like the time itself. */
function figureOf(quantity: string, value: number, length: LengthUnit, words: JudgementWords): string {
  const { is } = directionWords(quantity, quantity, words);
  if (!is) return withUnit(quantity, value, length, 0, words);
  return `${withUnit(quantity, Math.abs(value), length, 0, words)} ${value > 0 ? is.above : is.below}`;
}

/** Today's repetitions together lean the way this repetition went, nearly beyond chance. */
function isLikely({ today, change }: Omit<Judgement, 'sentence'>): boolean {
  return today !== null && today.certainty >= LIKELY && Math.sign(today.change) === Math.sign(change ?? 0);
}

function difference(quantity: string, change: number, length: LengthUnit, words: JudgementWords): string {
  const { label, decimals, factor } = quantityWords(quantity, length);
  const direction = directionWords(quantity, label, words);
  // A change too small for the field's decimals gets one more, so that it never reads as zero.
  const more = Math.abs(change * factor) < 0.5 * 10 ** -decimals ? 1 : 0;
  const size = withUnit(quantity, Math.abs(change), length, more, words);
  return `${size} ${change > 0 ? direction.more : direction.less}`;
}
