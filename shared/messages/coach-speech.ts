import type { CoachPhrases, CoachSpeech } from './coach-phrases.ts';
import { COACH_EN } from './en/coach.ts';
import type { Language } from './languages.ts';
import { phraseOf } from './phrase.ts';
import { createSpeech } from './speech.ts';

/** What the server says to a coach, in one language. */
export function coachSpeech(language: Language, phrases: CoachPhrases = COACH_EN): CoachSpeech {
  const speech = createSpeech(language, {});
  return {
    judged: phraseOf(COACH_EN.judged, phrases.judged, speech),
    cautions: phraseOf(COACH_EN.cautions, phrases.cautions, speech),
    planning: phraseOf(COACH_EN.planning, phrases.planning, speech),
    testing: phraseOf(COACH_EN.testing, phrases.testing, speech),
    reporting: phraseOf(COACH_EN.reporting, phrases.reporting, speech),
    agreement: phraseOf(COACH_EN.agreement, phrases.agreement, speech),
  };
}
