import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import type { ComparedQuantity } from '../../../shared/schemas/coach/comparison.ts';
import { changeRange } from './change-range.ts';
import { directionWords } from './direction-words.ts';
import { type LengthUnit, quantityWords, withUnit } from './quantity-words.ts';

/** `B 6 ms shorter than A (2 to 10 ms): beyond chance.` */
export function differenceSentence(
  compared: Omit<ComparedQuantity, 'sentence'>,
  length: LengthUnit = 'm',
  words: JudgementWords = JUDGEMENT_EN,
): string {
  const { quantity, difference, low, high, told } = compared;
  const say = words.coach.judged;
  const { label, decimals, factor } = quantityWords(quantity, length);
  const direction = directionWords(quantity, label, words);
  // A difference too small for the field's decimals gets one more, so that it never reads as zero.
  const more = Math.abs(difference * factor) < 0.5 * 10 ** -decimals ? 1 : 0;
  const size = withUnit(quantity, Math.abs(difference), length, more, words);
  const text =
    difference === 0
      ? say('alike')
      : say('differs', { size, direction: difference > 0 ? direction.more : direction.less });
  if (low === null || high === null || told === 'not judged') return `${text}.`;
  const range = changeRange({ quantity, low, high }, length, words);
  return say('differs_by', { text, range, certainty: say(`told_${told}`) });
}
