import { randomInt } from 'node:crypto';
import type { Store } from '../store/store.ts';

const LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ23456789';
const LENGTH = 8;
const LONGEST_SHIFT_DAYS = 365;

/**
 * Stable names without meaning: random, and kept beside the athlete, so that the same athlete has the same one in every export of this
 * database and nothing but the database joins the two. Erasing the athlete takes them away; they are not made from anything
 * that could be worked out again.
 */
export class Pseudonyms {
  readonly #store: Store;

  /** @param store may be written: who has no name yet is given one */
  constructor(store: Store) {
    this.#store = store;
  }

  /** `P` and eight letters or digits. */
  athlete(athleteId: number): string {
    return this.#ofAthlete(athleteId).pseudonym;
  }

  /** A session as one athlete had it; sessions of a group cannot be put together across athletes by it. */
  session(sessionId: number, athleteId: number): string {
    const find = this.#store.prepare(
      'SELECT pseudonym FROM session_pseudonyms WHERE session_id = ? AND athlete_id = ?',
    );
    const known = find.get(sessionId, athleteId) as { pseudonym: string } | undefined;
    if (known) return known.pseudonym;
    const insert = this.#store.prepare(
      'INSERT OR IGNORE INTO session_pseudonyms (session_id, athlete_id, pseudonym) VALUES (?, ?, ?)',
    );
    return untilTaken('S', (pseudonym) => insert.run(sessionId, athleteId, pseudonym).changes === 1);
  }

  /** Days to move an athlete's dates back, 1 to 365. */
  dayShift(athleteId: number): number {
    return this.#ofAthlete(athleteId).day_shift;
  }

  #ofAthlete(athleteId: number): { pseudonym: string; day_shift: number } {
    const find = this.#store.prepare('SELECT pseudonym, day_shift FROM athlete_pseudonyms WHERE athlete_id = ?');
    const known = find.get(athleteId) as { pseudonym: string; day_shift: number } | undefined;
    if (known) return known;
    const day_shift = randomInt(1, LONGEST_SHIFT_DAYS + 1);
    const insert = this.#store.prepare(
      'INSERT OR IGNORE INTO athlete_pseudonyms (athlete_id, pseudonym, day_shift) VALUES (?, ?, ?)',
    );
    const pseudonym = untilTaken('P', (name) => insert.run(athleteId, name, day_shift).changes === 1);
    return { pseudonym, day_shift };
  }
}

/** Names are unique in the database; one that was given already is thrown anew. */
function untilTaken(letter: string, take: (pseudonym: string) => boolean): string {
  for (;;) {
    const pseudonym = letter + Array.from({ length: LENGTH }, () => LETTERS[randomInt(LETTERS.length)]).join('');
    if (take(pseudonym)) return pseudonym;
  }
}
