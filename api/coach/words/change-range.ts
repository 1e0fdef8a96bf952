import { directionWords } from './direction-words.ts';
import { type LengthUnit, quantityWords, withUnit, withoutUnit } from './quantity-words.ts';

/**
 * The 95 % interval of a change in words: `5 to 13 ms` when both ends lie on one side, else `between 3 ms shorter and 5 ms
 * longer`.
 */
export function changeRange(change: { quantity: string; low: number; high: number }, length: LengthUnit = 'm'): string {
  const { quantity, low, high } = change;
  if (low > 0 || high < 0) {
    const [near, far] = [Math.min(Math.abs(low), Math.abs(high)), Math.max(Math.abs(low), Math.abs(high))];
    return `${withoutUnit(quantity, near, length)} to ${withUnit(quantity, far, length)}`;
  }
  const words = directionWords(quantity, quantityWords(quantity, length).label);
  return `between ${withUnit(quantity, -low, length)} ${words.less} and ${withUnit(quantity, high, length)} ${words.more}`;
}
