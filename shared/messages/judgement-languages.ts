import { JUDGEMENT_DE } from './de/judgement.ts';
import { JUDGEMENT_EN } from './en/judgement.ts';
import type { JudgementWords } from './judgement-words.ts';
import type { Language } from './languages.ts';

/** Sentences about a repetition, by language. */
export const JUDGEMENT_WORDS: Record<Language, JudgementWords> = { en: JUDGEMENT_EN, de: JUDGEMENT_DE };
