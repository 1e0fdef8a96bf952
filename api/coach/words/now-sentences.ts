import { capital } from '../../../shared/capital.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import type { Judgement } from '../../../shared/schemas/coach/judgement.ts';
import { changeRange } from './change-range.ts';
import { directionWords } from './direction-words.ts';
import { judgedText } from './judged-text.ts';
import { type LengthUnit, quantityWords, withUnit, withoutUnit } from './quantity-words.ts';

/**
 * The last day's level against normal, for a page that shows the level itself: `Better: 6 ms shorter than usual (2 to 10 ms).`
 * Its numbers are those of the verdict.
 */
export function againstNormal(
  judgement: Judgement,
  length: LengthUnit = 'm',
  words: JudgementWords = JUDGEMENT_EN,
): string {
  const { quantity, normal, today, kind, rule, change } = judgement;
  const say = words.coach.judged;
  if (kind === 'no comparison') return say('returning_alone');
  if (kind === 'first' || normal === null || today === null || change === null) return say('nothing_to_compare');
  const range = words.range(
    withoutUnit(quantity, normal.low, length, 0, words),
    withUnit(quantity, normal.high, length, 0, words),
  );
  if (kind === 'as usual') return say('as_usual', { range });
  const alone = rule === 'repetition';
  const { more, less } = directionWords(quantity, quantityWords(quantity, length).label, words);
  const size = alone ? change : today.change;
  const text = say('against_usual', {
    size: withUnit(quantity, Math.abs(size), length, 0, words),
    direction: size > 0 ? more : less,
    alone,
    today: normal.basis === 'earlier today',
  });
  if (kind === 'may be chance') return say('may_be_chance', { text: capital(text), range });
  const interval = alone ? '' : ` (${changeRange({ quantity, low: today.low, high: today.high }, length, words)})`;
  return `${judgedText(text, judgement.wanted, words)}${interval}.`;
}
