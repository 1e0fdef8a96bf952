import { quantityDefinition } from '../../../shared/coach-quantities.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import type { SideView } from '../../../shared/schemas/coach/course-view.ts';
import { directionWords } from './direction-words.ts';
import { type LengthUnit, withUnit } from './quantity-words.ts';

/** What a sentence on left and right is made of. */
export type ComparedSides = Pick<SideView, 'difference' | 'usual' | 'beyond_chance' | 'beyond_usual'>;

/**
 * Which side is longer, and by how much more than usual: `Contact 9 ms longer on the left, 6 ms more than usual, beyond
 * chance.` Never a sign of injury.
 */
export function sideSentence(
  quantity: string,
  { difference, usual, beyond_chance, beyond_usual }: ComparedSides,
  length: LengthUnit = 'm',
  words: JudgementWords = JUDGEMENT_EN,
): string {
  const { subject, more } = directionWords(quantity, quantityDefinition(quantity)?.label ?? quantity, words);
  const longer = (by: number) => ({
    size: `${withUnit(quantity, Math.abs(by), length, 0, words)} ${more}`,
    side: by > 0 ? ('left' as const) : ('right' as const),
  });
  return words.side({
    subject,
    now: beyond_chance ? longer(difference) : null,
    usual: usual === null ? 'unknown' : beyond_usual === null ? 'as usual' : longer(difference - usual),
  });
}
