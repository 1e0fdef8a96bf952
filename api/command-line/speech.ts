import { JUDGEMENT_WORDS } from '../../shared/messages/judgement-languages.ts';
import type { JudgementWords } from '../../shared/messages/judgement-words.ts';
import { chooseLanguage } from '../../shared/messages/languages.ts';
import type { Speech } from '../../shared/messages/say.ts';
import { speechOf } from '../../shared/messages/speeches.ts';

/** The speech for the terminal, as the environment asks for it (POSIX: LC_ALL, then LC_MESSAGES, then LANG). */
export function terminalSpeech({ LC_ALL, LC_MESSAGES, LANG } = process.env): Speech {
  return speechOf(chooseLanguage([LC_ALL || LC_MESSAGES || LANG || '']));
}

/** Files are English wherever they are written: two machines write the same bytes. */
export const FILE_SPEECH: Speech = speechOf('en');
export const FILE_WORDS: JudgementWords = JUDGEMENT_WORDS.en;
