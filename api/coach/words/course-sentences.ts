import { capital } from '../../../shared/capital.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import type { FatigueLine, SessionLevel } from '../../../shared/schemas/coach/course-view.ts';
import type { BlockView } from '../../../shared/schemas/coach/judgement.ts';
import { labelOf, type LengthUnit, numberText, withUnit } from './quantity-words.ts';

/** What the weeks show: before and after of the block, or what is missing until that can be told. */
export function courseSentence(
  quantity: string,
  sessions: readonly SessionLevel[],
  block: BlockView | null,
  length: LengthUnit = 'm',
  words: JudgementWords = JUDGEMENT_EN,
): string {
  const label = capital(labelOf(quantity, words));
  if (sessions.length === 0) return words.coach.judged('course_nothing', { label });
  if (block) return block.sentence;
  const last = withUnit(quantity, sessions.at(-1)!.value, length, 0, words);
  return words.coach.judged('course_needs', { label, last });
}

/** How a session drifts, and what the coach's rule says. */
export function fatigueSentence(line: Omit<FatigueLine, 'sentence'>, words: JudgementWords = JUDGEMENT_EN): string {
  const { quantity, fresh, last, change_percent, slope, stop } = line;
  const say = words.coach.judged;
  const label = capital(labelOf(quantity, words));
  if (fresh === null || last === null || change_percent === null) return say('fatigue_needs', { label });
  const told = slope !== null && (slope.low > 0 || slope.high < 0);
  return say('fatigue', {
    label,
    fresh: withUnit(quantity, fresh, 'm', 0, words),
    last: withUnit(quantity, last, 'm', 0, words),
    percent: `${change_percent > 0 ? '+' : '−'}${numberText(Math.abs(change_percent), 1, words)}`,
    // What changes in a repetition gets one more decimal.
    drift: told ? say('drift', { size: withUnit(quantity, Math.abs(slope.value), 'm', 1, words) }) : say('no_drift'),
    stop,
  });
}
