import { effect, signal } from '@preact/signals';
import { optionFaults } from '../../shared/messages/en/faults/options.ts';
import { viewFaults } from '../../shared/messages/en/faults/view.ts';
import { chooseLanguage, LANGUAGE_COOKIE, LANGUAGES, type Language } from '../../shared/messages/languages.ts';
import { type PhraseRoom, sentenceText, type ValuesOf } from '../../shared/messages/sentence.ts';
import type { Values } from '../../shared/messages/values.ts';
import { createSpeech } from '../../shared/messages/speech.ts';
import type { Speech } from '../../shared/messages/say.ts';
import type { ViewWords } from '../../shared/messages/view-words.ts';

const STORAGE_KEY = 'cinderlane.language';

/** What this device's user chose; null: as the browser prefers. */
export const chosenLanguage = signal<Language | null>(storedChoice());

/** How the language writes numbers, lists and days, and tells the faults that the view makes itself. */
export const speech = signal<Speech>(createSpeech('en', { ...optionFaults, ...viewFaults }));

const ENGLISH = speech.peek();
/** The words of another language, once fetched; null: English, which each page brings along. */
const words = signal<ViewWords | null>(null);

/** Names of the languages in their own words, for the settings. */
export const LANGUAGE_NAMES: Record<Language, string> = { en: 'English', de: 'Deutsch' };

/** Language tags that the browser asks for, best first. */
function preferred(): readonly string[] {
  return typeof navigator === 'undefined' ? [] : (navigator.languages ?? []);
}

/** The language of this device now. */
export function currentLanguage(): Language {
  return chosenLanguage.value ?? chooseLanguage(preferred());
}

/** The browser's own variant of the language, such as `de-AT`, for days and clocks. */
export function dateLocale(): string {
  const { language } = speech.value;
  return preferred().find((tag) => tag.toLowerCase().split('-')[0] === language) ?? language;
}

type Phrase<Room> = <Key extends keyof Room & string>(
  key: Key,
  ...[values]: unknown extends ValuesOf<Room[Key]> ? [] : [values: ValuesOf<Room[Key]>]
) => string;

/**
 * Phrases of one part of the view in the language of this device.
 * @param name of the part in the words of other languages
 * @param english the part's own words; they are bundled with the page that asks for them
 */
export function phrasesOf<Room extends PhraseRoom>(name: keyof ViewWords['phrases'], english: Room): Phrase<Room> {
  return (key, ...[values]) => {
    const other = words.value?.phrases[name] as PhraseRoom | undefined;
    return sentenceText(other?.[key] ?? english[key], (values ?? {}) as Values, speech.value);
  };
}

/** The name of a quantity: as its definition has it, or in another language. */
export function labelText(label: string): string {
  return words.value?.quantities[label]?.[0] ?? label;
}

/** What a quantity is: as the dictionary has it, or in another language. */
export function definitionText({ label, definition }: { label: string; definition: string }): string {
  return words.value?.quantities[label]?.[1] ?? definition;
}

/** Fetches the words of a language and switches to it. English needs no fetching. */
async function speak(language: Language): Promise<void> {
  if (language === 'en') {
    words.value = null;
    speech.value = ENGLISH;
  } else {
    const { VIEW_DE } = await import('../../shared/messages/de/view.ts');
    if (currentLanguage() !== language) return;
    words.value = VIEW_DE;
    speech.value = createSpeech(language, { ...optionFaults, ...viewFaults, ...VIEW_DE.faults });
  }
  document.documentElement.lang = language;
}

/**
 * Switches to this device's language and follows its choice from then on.
 * @returns when the first page can be drawn in it; a language that cannot be fetched leaves English
 */
export async function startLanguage(): Promise<void> {
  const follow = () => speak(currentLanguage()).catch(() => undefined);
  await follow();
  effect(() => {
    keepChoice(chosenLanguage.value);
    void follow();
  });
}

function storedChoice(): Language | null {
  try {
    const stored = localStorage.getItem(STORAGE_KEY);
    return LANGUAGES.find((language) => language === stored) ?? null;
  } catch {
    // Storage is switched off: the browser's own preference serves.
    return null;
  }
}

/** On this device, and as a cookie so that the server answers in it; without a choice it goes by Accept-Language. */
function keepChoice(language: Language | null): void {
  try {
    if (language) localStorage.setItem(STORAGE_KEY, language);
    else localStorage.removeItem(STORAGE_KEY);
  } catch {
    // Storage is switched off: the choice lasts until the page is closed.
  }
  const life = language ? 60 * 60 * 24 * 365 : 0;
  // biome-ignore lint/suspicious/noDocumentCookie: the Cookie Store exists on https pages only, and a club's network is often plain http
  document.cookie = `${LANGUAGE_COOKIE}=${language ?? ''}; path=/; max-age=${life}; samesite=strict`;
}
