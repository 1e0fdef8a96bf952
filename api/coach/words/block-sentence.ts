import { capital } from '../../../shared/capital.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import type { BlockView } from '../../../shared/schemas/coach/judgement.ts';
import { changeRange } from './change-range.ts';
import { directionWords } from './direction-words.ts';
import { type LengthUnit, quantityWords, withUnit, withoutUnit } from './quantity-words.ts';
import { judgedText } from './judged-text.ts';

/** `Better: contact from 140 to 131 ms since 3 October, 9 ms shorter (between 5 and 13 ms).` */
export function blockSentence(
  block: Omit<BlockView, 'sentence'>,
  date: string,
  length: LengthUnit = 'm',
  words: JudgementWords = JUDGEMENT_EN,
): string {
  const { quantity, change, beyond, wanted } = block;
  const say = words.coach.judged;
  const { subject, more, less } = directionWords(quantity, quantityWords(quantity, length).label, words);
  const parts = {
    date: words.date(block.from_date, date),
    now: withUnit(quantity, block.now.value, length, 0, words),
    size: withUnit(quantity, Math.abs(change), length, 0, words),
    direction: change > 0 ? more : less,
    range: changeRange(block, length, words),
  };
  if (beyond === null) {
    // The 95 % interval may leave zero out before a change is told, since it is looked at after every session of a block.
    const likely = block.low > 0 || block.high < 0;
    return say(likely ? 'block_likely' : 'block_none', { subject: capital(subject), ...parts });
  }
  const before = withoutUnit(quantity, block.before.value, length, 0, words);
  return judgedText(say('block_changed', { subject, before, ...parts }), wanted, words);
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
