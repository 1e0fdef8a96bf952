import type { COACH_EN } from './en/coach.ts';
import type { Phrase } from './phrase.ts';
import type { PhrasesLike } from './sentence.ts';

type Rooms = typeof COACH_EN;

/** What the server says to a coach, in another language. */
export type CoachPhrases = { readonly [Room in keyof Rooms]: PhrasesLike<Rooms[Room]> };

/** The same, ready to be said. */
export type CoachSpeech = { readonly [Room in keyof Rooms]: Phrase<Rooms[Room]> };
