import { createHmac, randomBytes } from 'node:crypto';
import type { Store } from '../store/store.ts';

const LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ23456789';

/** Makes the key at first use; call it where writing is allowed. */
export function ensurePseudonymKey(store: Store): void {
  store.prepare('INSERT INTO pseudonym_key (key_id, secret) VALUES (1, ?) ON CONFLICT DO NOTHING').run(randomBytes(32));
}

/**
 * Stable names without meaning: the same athlete has the same pseudonym in every export of this database, and nobody without
 * its key can find the athlete from it, nor try identifiers out (HMAC-SHA-256, RFC 2104).
 */
export class Pseudonyms {
  readonly #secret: Buffer;

  constructor(store: Store) {
    const row = store.prepare('SELECT secret FROM pseudonym_key').get() as { secret: Uint8Array } | undefined;
    if (!row) throw new Error('the pseudonym key was not made');
    this.#secret = Buffer.from(row.secret);
  }

  /** `P` and eight letters or digits; collisions among 10,000 athletes: 1 in 20,000. */
  athlete(athleteId: number): string {
    return `P${this.#letters(`athlete ${athleteId}`, 8)}`;
  }

  /** A session as one athlete had it; sessions of a group cannot be put together across athletes by it. */
  session(sessionId: number, athleteId: number): string {
    return `S${this.#letters(`session ${sessionId} ${athleteId}`, 8)}`;
  }

  /** Days to move an athlete's dates back, 1 to 365. */
  dayShift(athleteId: number): number {
    return 1 + (this.#digest(`days ${athleteId}`).readUInt32BE(0) % 365);
  }

  #digest(text: string): Buffer {
    return createHmac('sha256', this.#secret).update(text).digest();
  }

  #letters(text: string, count: number): string {
    return [...this.#digest(text).subarray(0, count)].map((byte) => LETTERS[byte % LETTERS.length]).join('');
  }
}
