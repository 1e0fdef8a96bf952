import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import type { AthleteFocusNow } from '../../../shared/schemas/coach/field-view.ts';

/** `Works on: short contact. Cue: “down under the hip”.` The cue is the coach's, or left out. */
export function focusSentence({ name, cue }: AthleteFocusNow, words: JudgementWords = JUDGEMENT_EN): string {
  return words.coach.judged('works_on', { name, cue });
}
