import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { directionWords } from './direction-words.ts';
import { type LengthUnit, quantityWords, withUnit, withoutUnit } from './quantity-words.ts';

/**
 * The 95 % interval of a change in words: `5 to 13 ms` when both ends lie on one side, else `between 3 ms shorter and 5 ms
 * longer`.
 */
export function changeRange(
  change: { quantity: string; low: number; high: number },
  length: LengthUnit = 'm',
  words: JudgementWords = JUDGEMENT_EN,
): string {
  const { quantity, low, high } = change;
  if (low > 0 || high < 0) {
    const [near, far] = [Math.min(Math.abs(low), Math.abs(high)), Math.max(Math.abs(low), Math.abs(high))];
    return words.range(withoutUnit(quantity, near, length, 0, words), withUnit(quantity, far, length, 0, words));
  }
  const direction = directionWords(quantity, quantityWords(quantity, length).label, words);
  return words.range_across({
    less: `${withUnit(quantity, -low, length, 0, words)} ${direction.less}`,
    more: `${withUnit(quantity, high, length, 0, words)} ${direction.more}`,
  });
}
