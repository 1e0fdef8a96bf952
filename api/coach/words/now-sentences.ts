import type { Judgement } from '../../../shared/schemas/coach/judgement.ts';
import { changeRange } from './change-range.ts';
import { directionWords } from './direction-words.ts';
import { capital, type LengthUnit, quantityWords, withUnit, withoutUnit } from './quantity-words.ts';

/**
 * The last day's level against normal, for a page that shows the level itself: `Better: 6 ms shorter than usual (2 to 10 ms).`
 * Its numbers are those of the verdict.
 */
export function againstNormal(judgement: Judgement, length: LengthUnit = 'm'): string {
  const { quantity, normal, today, kind, rule, change } = judgement;
  if (kind === 'no comparison') return 'No comparison while returning.';
  if (kind === 'first' || normal === null || today === null || change === null) return 'Nothing to compare with yet.';
  const range = `${withoutUnit(quantity, normal.low, length)} to ${withUnit(quantity, normal.high, length)}`;
  if (kind === 'as usual') return `As usual: normal is ${range}.`;
  const usual = normal.basis === 'earlier today' ? 'earlier that day' : 'usual';
  const alone = rule === 'repetition';
  const words = directionWords(quantity, quantityWords(quantity, length).label);
  const size = alone ? change : today.change;
  const text = `${alone ? 'the last one ' : ''}${withUnit(quantity, Math.abs(size), length)} ${size > 0 ? words.more : words.less} than ${usual}`;
  if (kind === 'may be chance') {
    return `${capital(text)}, may be chance: normal is ${range}.`;
  }
  const interval = alone ? '' : ` (${changeRange({ quantity, low: today.low, high: today.high }, length)})`;
  const judged = judgement.wanted === null ? capital(text) : `${judgement.wanted ? 'Better' : 'Worse'}: ${text}`;
  return `${judged}${interval}.`;
}
