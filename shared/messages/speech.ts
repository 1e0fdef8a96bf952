import type { CodedFault, CodedWhere, Where } from '../fault-shape.ts';
import type { Language } from './languages.ts';
import type { Speech } from './say.ts';
import type { Values } from './values.ts';
import { type FaultRoom, type FaultSentence, type PhraseRoom, sentenceText } from './sentence.ts';

interface OtherWords {
  /** Phrases by key. */
  reasons?: PhraseRoom;
  /** Sentences by key. */
  notices?: PhraseRoom;
  /** Of codes in one line, for a fault of another version whose sentence is not known here. */
  meanings?: { readonly [code: string]: string };
}

/**
 * The speech of one language.
 * @param faults sentences by key
 */
export function createSpeech(
  language: Language,
  faults: FaultRoom,
  { reasons = {}, notices = {}, meanings = {} }: OtherWords = {},
): Speech {
  const lists = {
    and: new Intl.ListFormat(language, { type: 'conjunction' }),
    or: new Intl.ListFormat(language, { type: 'disjunction' }),
  };
  const plurals = new Intl.PluralRules(language);
  const days = new Intl.DateTimeFormat(language, { dateStyle: 'long', timeZone: 'UTC' });
  const numbers = new Map<number | undefined, Intl.NumberFormat>();
  const numberFormat = (decimals: number | undefined): Intl.NumberFormat => {
    const known = numbers.get(decimals);
    if (known) return known;
    const digits = { minimumFractionDigits: decimals ?? 0, maximumFractionDigits: decimals ?? 20 };
    const made = new Intl.NumberFormat(language, { ...digits, useGrouping: false });
    numbers.set(decimals, made);
    return made;
  };
  const phrase = (room: PhraseRoom, key: string, values: Values = {}): string =>
    // Of another version: its key in plain letters is better than nothing.
    room[key] === undefined ? key.replaceAll('_', ' ') : sentenceText(room[key], values, speech);
  const speech: Speech = {
    language,
    number: (value, decimals) => (Number.isFinite(value) ? numberFormat(decimals).format(value) : String(value)),
    list: (items, kind = 'and') =>
      lists[kind].format(items.map((item) => (typeof item === 'number' ? speech.number(item) : item))),
    plural: (count, forms) => (plurals.select(count) === 'one' ? forms.one : forms.other),
    day: (date) => {
      const [year, month, day] = date.slice(0, 10).split('-').map(Number);
      return days.format(Date.UTC(year, month - 1, day));
    },
    because: (reason) => (typeof reason === 'string' ? reason : phrase(reasons, reason.because, reason.values)),
    notice: (notice) => (typeof notice === 'string' ? notice : phrase(notices, notice.notice, notice.values)),
    tell(fault) {
      if ('message' in fault) return fault;
      const { code, sentence, values } = fault;
      const where = toldWhere(fault.where, speech);
      const words = (faults as Record<string, FaultSentence<never> | undefined>)[sentence];
      if (!words) return { code, message: unknownSentence(fault, meanings[code] ?? `${code}.`), where, hint: '' };
      return {
        code,
        message: sentenceText(words.message, values, speech),
        where,
        hint: sentenceText(words.hint, values, speech),
      };
    },
  };
  return speech;
}

/** Reasons in it become words. */
function toldWhere(where: CodedWhere, speech: Speech): Where {
  const told = ([name, value]: [string, CodedWhere[string]]) => [
    name,
    typeof value === 'object' && value !== null ? speech.because(value) : value,
  ];
  return Object.fromEntries(Object.entries(where).map(told));
}

/** A fault whose sentence is not known here: its meaning and its values, so that nothing is hidden. */
function unknownSentence({ values }: CodedFault, meaning: string): string {
  return Object.keys(values).length > 0 ? `${meaning} ${JSON.stringify(values)}` : meaning;
}
