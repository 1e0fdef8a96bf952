import { capital } from '../../../shared/capital.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';

/** `Better: ...` and `Worse: ...` where one way is wanted; else the text as a sentence of its own. */
export function judgedText(text: string, wanted: boolean | null, words: JudgementWords): string {
  if (wanted === null) return capital(text);
  return words.coach.judged(wanted ? 'better' : 'worse', { text });
}
