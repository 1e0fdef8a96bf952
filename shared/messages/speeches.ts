import { FAULT_CODES } from '../fault-codes.ts';
import { FAULTS_DE } from './de/faults.ts';
import { NOTICES_DE } from './de/notices.ts';
import { REASONS_DE } from './de/reasons.ts';
import { FAULTS_EN } from './en/faults.ts';
import { NOTICES_EN } from './en/notices.ts';
import { REASONS_EN } from './en/reasons.ts';
import type { Language } from './languages.ts';
import { createSpeech } from './speech.ts';
import type { Speech } from './say.ts';

const FAULTS = { en: FAULTS_EN, de: { ...FAULTS_EN, ...FAULTS_DE } };
const REASONS = { en: REASONS_EN, de: { ...REASONS_EN, ...REASONS_DE } };
const NOTICES = { en: NOTICES_EN, de: { ...NOTICES_EN, ...NOTICES_DE } };
const made = new Map<Language, Speech>();

/** The speech of a language with the whole catalogue. For the server and the command line; the view brings its own part. */
export function speechOf(language: Language): Speech {
  const known = made.get(language);
  if (known) return known;
  const speech = createSpeech(language, FAULTS[language], {
    reasons: REASONS[language],
    notices: NOTICES[language],
    meanings: FAULT_CODES,
  });
  made.set(language, speech);
  return speech;
}
