import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { DirectionWords, JudgementWords } from '../../../shared/messages/judgement-words.ts';

/** The words for 'more' and 'less' of a quantity, and its short name in a sentence. */
export function directionWords(quantity: string, label: string, words: JudgementWords = JUDGEMENT_EN): DirectionWords {
  return words.directions[quantity] ?? { subject: words.label(label), ...words.other };
}
