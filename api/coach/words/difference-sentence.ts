import type { ComparedQuantity } from '../../../shared/schemas/coach/comparison.ts';
import { changeRange } from './change-range.ts';
import { directionWords } from './direction-words.ts';
import { type LengthUnit, quantityWords, withUnit } from './quantity-words.ts';

/** `B 6 ms shorter than A (2 to 10 ms): beyond chance.` */
export function differenceSentence(compared: Omit<ComparedQuantity, 'sentence'>, length: LengthUnit = 'm'): string {
  const { quantity, difference, low, high, told } = compared;
  const { label, decimals, factor } = quantityWords(quantity, length);
  const words = directionWords(quantity, label);
  // A difference too small for the field's decimals gets one more, so that it never reads as zero.
  const more = Math.abs(difference * factor) < 0.5 * 10 ** -decimals ? 1 : 0;
  const size = withUnit(quantity, Math.abs(difference), length, more);
  const text = difference === 0 ? 'A and B alike' : `B ${size} ${difference > 0 ? words.more : words.less} than A`;
  if (low === null || high === null || told === 'not judged') return `${text}.`;
  const certainty = told === 'likely' ? 'likely, but not beyond chance' : told;
  return `${text} (${changeRange({ quantity, low, high }, length)}): ${certainty}.`;
}
