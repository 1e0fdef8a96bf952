import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import type { BlockView } from '../../../shared/schemas/coach/judgement.ts';
import { plainDate } from './plain-date.ts';
import { changeRange } from './change-range.ts';
import { directionWords } from './direction-words.ts';
import { capital, type LengthUnit, quantityWords, withUnit, withoutUnit } from './quantity-words.ts';

/** `Better: contact from 140 to 131 ms since 3 October, 9 ms shorter (between 5 and 13 ms).` */
export function blockSentence(block: Omit<BlockView, 'sentence'>, date: string, length: LengthUnit = 'm'): string {
  const { quantity, change } = block;
  const words = directionWords(quantity, quantityWords(quantity, length).label);
  const since = `since ${plainDate(block.from_date, date)}`;
  const levels = `from ${withoutUnit(quantity, block.before.value, length)} to ${withUnit(quantity, block.now.value, length)}`;
  const size = withUnit(quantity, Math.abs(change), length);
  const direction = change > 0 ? words.more : words.less;
  if (block.beyond === null) {
    const now = withUnit(quantity, block.now.value, length);
    // The 95 % interval may leave zero out before a change is told, since it is looked at after every session of a block.
    return block.low > 0 || block.high < 0
      ? `${capital(words.subject)} ${now}: likely ${size} ${direction} ${since} (${changeRange(block, length)}), but no change beyond chance yet.`
      : `${capital(words.subject)} ${now}: no change beyond chance ${since} (${changeRange(block, length)}).`;
  }
  const text = `${words.subject} ${levels} ${since}, ${size} ${direction} (${changeRange(block, length)})`;
  return `${block.wanted === null ? capital(text) : `${block.wanted ? 'Better' : 'Worse'}: ${text}`}.`;
}

/** The same after a verdict, as the second half of its sentence; empty where nothing is beyond chance. */
export function sinceClause(
  block: BlockView | null,
  date: string,
  length: LengthUnit = 'm',
  words: JudgementWords = JUDGEMENT_EN,
): string {
  if (!block?.beyond) return '';
  const { quantity, change, wanted } = block;
  const direction = directionWords(quantity, quantityWords(quantity, length).label, words);
  return words.since({
    date: words.date(block.from_date, date),
    before: withoutUnit(quantity, block.before.value, length, 0, words),
    now: withUnit(quantity, block.now.value, length, 0, words),
    direction: change > 0 ? direction.more : direction.less,
    range: changeRange(block, length, words),
    wanted,
  });
}
