import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';

/** `2 September`, with the year when it is not the same as the other date's. */
export function plainDate(date: string, beside = date, words = JUDGEMENT_EN): string {
  return words.date(date, beside);
}
