import type { FaultCode } from '../fault-codes.ts';
import type { Speech } from './say.ts';
import type { Values } from './values.ts';

/** Words without values, or a function of the values it names: `({ file, line }) => ...`. */
export type Sentence<V> = string | ((values: V, say: Speech) => string);

/** Where, what was found, what is allowed, what happened; and what to do, empty where nothing helps. */
export interface FaultSentence<V> {
  message: Sentence<V>;
  hint: Sentence<V>;
}

/** Sentences of one part's faults. A key is the code, or the code and a word of its own where one code has several sentences. */
export type FaultRoom = { readonly [key in FaultCode | `${FaultCode}.${string}`]?: FaultSentence<never> };

/** Sentences of one part that are no faults. */
export type PhraseRoom = { readonly [key: string]: Sentence<never> };

/** The values that a sentence asks for; `unknown` where it asks for none. */
export type ValuesOf<S> = S extends (values: infer V, say: Speech) => string ? V : unknown;
export type FaultValuesOf<F> = F extends { message: infer M; hint: infer H } ? ValuesOf<M> & ValuesOf<H> : never;

/**
 * The same room in another language, with no other values than the English sentences have. What is missing is told in
 * English, and listed by tests/messages.test.ts.
 */
export type FaultsLike<Room> = { readonly [K in keyof Room]?: FaultSentence<FaultValuesOf<Room[K]>> };
export type PhrasesLike<Room> = { readonly [K in keyof Room]?: Sentence<ValuesOf<Room[K]>> };

/** The sentence for these values. */
export function sentenceText(sentence: Sentence<never>, values: Values, say: Speech): string {
  return typeof sentence === 'string' ? sentence : (sentence as Exclude<Sentence<Values>, string>)(values, say);
}
