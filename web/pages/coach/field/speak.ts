import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { dateLocale, phrasesOf } from '../../../app/language.ts';
import { signal } from '@preact/signals';
import { keep, readKept } from '../kept.ts';

const t = phrasesOf('field', fieldWords);

export const canSpeak = 'speechSynthesis' in window;

/** Whether new results are read out on this device. */
export const speaking = signal<boolean>(readKept<boolean>('speaking') ?? false);

export function setSpeaking(on: boolean): void {
  speaking.value = on;
  keep('speaking', on);
  if (!on && canSpeak) window.speechSynthesis.cancel();
}

/** Reads a text out, in place of one still being read. */
export function speak(text: string): void {
  if (!canSpeak) return;
  window.speechSynthesis.cancel();
  const utterance = new SpeechSynthesisUtterance(spoken(text));
  utterance.lang = dateLocale();
  window.speechSynthesis.speak(utterance);
}

/** Units and signs as words. */
export function spoken(text: string): string {
  return text
    .replaceAll(' ms', t('spoken_ms'))
    .replaceAll(' m/s', t('spoken_mps'))
    .replaceAll('°', t('spoken_degrees'))
    .replaceAll('−', t('spoken_minus'))
    .replaceAll('%', t('spoken_percent'));
}
