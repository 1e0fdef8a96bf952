import { createHmac } from 'node:crypto';
import type Database from 'better-sqlite3';

const LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ23456789';

/**
 * How pseudonyms were made until they became random (HMAC-SHA-256 of identifiers, RFC 2104): functions that one migration calls, so
 * that what is in published data keeps its name.
 */
export function addKeyedPseudonyms(database: Database.Database): void {
  const digest = (secret: Uint8Array, text: string) => createHmac('sha256', Buffer.from(secret)).update(text).digest();
  database.function(
    'keyed_pseudonym',
    { deterministic: true },
    (secret, letter, text) =>
      letter +
      [...digest(secret as Uint8Array, text as string).subarray(0, 8)].map((byte) => LETTERS[byte % 32]).join(''),
  );
  database.function(
    'keyed_day_shift',
    { deterministic: true },
    (secret, text) => 1 + (digest(secret as Uint8Array, text as string).readUInt32BE(0) % 365),
  );
}
