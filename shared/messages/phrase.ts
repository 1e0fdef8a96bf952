import { type PhraseRoom, sentenceText, type ValuesOf } from './sentence.ts';
import type { Speech } from './say.ts';
import type { Values } from './values.ts';

/** Says the phrases of a room; the compiler holds every call to the values that its phrase names. */
export type Phrase<Room> = <Key extends keyof Room & string>(
  key: Key,
  ...[values]: unknown extends ValuesOf<Room[Key]> ? [] : [values: ValuesOf<Room[Key]>]
) => string;

/**
 * Phrases in one language.
 * @param english the room itself, which has every phrase
 * @param other the same room in the language; what it lacks is said in English
 */
export function phraseOf<Room extends PhraseRoom>(english: Room, other: PhraseRoom, speech: Speech): Phrase<Room> {
  return (key, ...[values]) => sentenceText(other[key] ?? english[key], (values ?? {}) as Values, speech);
}
