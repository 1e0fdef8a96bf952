import { daysBetween } from '../../../shared/dates.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import type { RepetitionLine } from '../../../shared/schemas/repetition.ts';

/** Asks which is right where the sensor's clock tells another day than the session; a day either way is the time zone's. */
export function clockQuestion(
  { recorded_utc, session_date }: Pick<RepetitionLine, 'recorded_utc' | 'session_date'>,
  words: JudgementWords = JUDGEMENT_EN,
): string {
  if (recorded_utc === null) return '';
  const told = recorded_utc.slice(0, 10);
  if (Math.abs(daysBetween(told, session_date)) <= 1) return '';
  return words.clock_question({ told: words.date(told, session_date), of: words.date(session_date, session_date) });
}
