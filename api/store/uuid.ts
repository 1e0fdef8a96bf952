import { createHash, randomBytes } from 'node:crypto';
import type Database from 'better-sqlite3';

/**
 * An identifier that nobody else makes, in the order of time (UUID version 7, RFC 9562 section 5.7).
 * @param at_ms milliseconds since 1970-01-01 UTC
 * @param random ten bytes of chance, of which 74 bits are used
 */
export function uuid7(at_ms: number = Date.now(), random: Uint8Array = randomBytes(10)): string {
  const bytes = Buffer.alloc(16);
  bytes.writeUIntBE(at_ms, 0, 6);
  bytes.set(random, 6);
  return written(bytes, 7);
}

/**
 * The same identifier for the same words, wherever it is made (UUID version 5, RFC 9562 section 5.5).
 * @param space identifier of what the words belong to
 */
export function nameUuid(space: string, words: string): string {
  const digest = createHash('sha1')
    .update(Buffer.from(space.replaceAll('-', ''), 'hex'))
    .update(words)
    .digest();
  return written(digest.subarray(0, 16), 5);
}

/** Gives a connection the function that migrations and triggers call: `uuid7()`, or `uuid7(instant)` for a row made then. */
export function addUuidFunction(database: Database.Database): void {
  database.function('uuid7', { varargs: true }, (made_utc?: unknown) => {
    const at = typeof made_utc === 'string' ? Date.parse(made_utc) : Number.NaN;
    return uuid7(Number.isFinite(at) && at >= 0 ? at : Date.now());
  });
}

function written(bytes: Buffer, version: number): string {
  bytes[6] = (version << 4) | (bytes[6] & 0x0f);
  bytes[8] = 0x80 | (bytes[8] & 0x3f);
  const hex = bytes.toString('hex');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}
