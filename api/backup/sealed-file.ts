import { createCipheriv, createDecipheriv, randomBytes, scryptSync } from 'node:crypto';
import { closeSync, openSync, readSync, writeSync } from 'node:fs';

/** First bytes of a sealed file, with the version of its form. */
const MAGIC = Buffer.from('cinderlane-sealed/1\n');
/** scrypt (RFC 7914): 2^15 x 8 x 128 bytes, 32 MB and about a tenth of a second a try (common practice for stored files). */
const SCRYPT = { N: 1 << 15, r: 8, p: 1, maxmem: 64 << 20 };
const SALT_BYTES = 16;
const PREFIX_BYTES = 7;
const TAG_BYTES = 16;
const PIECE_BYTES = 1 << 20;
const HEADER_BYTES = MAGIC.length + SALT_BYTES + PREFIX_BYTES;

/**
 * Seals a file with a passphrase: AES-256-GCM (NIST SP 800-38D) over pieces of 1 MiB, each with a nonce of its own that counts and says
 * whether it is the last (the STREAM construction of Hoang, Reyhanitabar, Rogaway and Vizar, 2015), so that a piece that is
 * missing, moved or changed, or an end that was cut off, is noticed. Both files are read and written once; memory is two pieces.
 */
export function sealFile(from: string, to: string, passphrase: string): void {
  const salt = randomBytes(SALT_BYTES);
  const prefix = randomBytes(PREFIX_BYTES);
  const header = Buffer.concat([MAGIC, salt, prefix]);
  const key = keyOf(passphrase, salt);
  withFiles(from, to, (input, output) => {
    writeSync(output, header);
    for (const { bytes, number, last } of pieces(input, 0, PIECE_BYTES)) {
      const cipher = createCipheriv('aes-256-gcm', key, nonce(prefix, number, last));
      cipher.setAAD(header);
      writeSync(output, Buffer.concat([cipher.update(bytes), cipher.final(), cipher.getAuthTag()]));
    }
  });
}

/**
 * Opens a sealed file.
 * @throws Error when the passphrase is another, or the file was changed or cut short; what was written until then is to be thrown away
 */
export function openSealedFile(from: string, to: string, passphrase: string): void {
  withFiles(from, to, (input, output) => {
    const header = Buffer.alloc(HEADER_BYTES);
    if (readSync(input, header, 0, HEADER_BYTES, 0) < HEADER_BYTES) throw new Error('it is cut short');
    const salt = header.subarray(MAGIC.length, MAGIC.length + SALT_BYTES);
    const prefix = header.subarray(MAGIC.length + SALT_BYTES);
    const key = keyOf(passphrase, salt);
    for (const { bytes, number, last } of pieces(input, HEADER_BYTES, PIECE_BYTES + TAG_BYTES)) {
      if (bytes.length < TAG_BYTES) throw new Error('it is cut short');
      const decipher = createDecipheriv('aes-256-gcm', key, nonce(prefix, number, last));
      decipher.setAAD(header);
      decipher.setAuthTag(bytes.subarray(-TAG_BYTES));
      writeSync(output, Buffer.concat([decipher.update(bytes.subarray(0, -TAG_BYTES)), decipher.final()]));
    }
  });
}

/** True for a file that `sealFile` made. */
export function isSealed(file: string): boolean {
  const fd = openSync(file, 'r');
  try {
    const head = Buffer.alloc(MAGIC.length);
    return readSync(fd, head, 0, MAGIC.length, 0) === MAGIC.length && head.equals(MAGIC);
  } finally {
    closeSync(fd);
  }
}

/** A key of 256 bits from a passphrase. */
export function keyOf(passphrase: string, salt: Uint8Array): Buffer {
  return scryptSync(passphrase.normalize('NFC'), salt, 32, SCRYPT);
}

function nonce(prefix: Uint8Array, number: number, last: boolean): Buffer {
  const made = Buffer.alloc(12);
  made.set(prefix);
  made.writeUInt32BE(number, PREFIX_BYTES);
  made[11] = last ? 1 : 0;
  return made;
}

/** Pieces of one size, one ahead, so that the last one is known; a file without bytes is one empty piece. */
function* pieces(fd: number, start: number, size: number): Generator<{ bytes: Buffer; number: number; last: boolean }> {
  let at = start;
  const next = (): Buffer => {
    const piece = Buffer.alloc(size);
    let filled = 0;
    while (filled < size) {
      const read = readSync(fd, piece, filled, size - filled, at + filled);
      if (read === 0) break;
      filled += read;
    }
    at += filled;
    return piece.subarray(0, filled);
  };
  let bytes = next();
  for (let number = 0; ; number++) {
    const following = bytes.length < size ? Buffer.alloc(0) : next();
    const last = following.length === 0;
    yield { bytes, number, last };
    if (last) return;
    bytes = following;
  }
}

function withFiles(from: string, to: string, work: (input: number, output: number) => void): void {
  const input = openSync(from, 'r');
  try {
    const output = openSync(to, 'w', 0o600);
    try {
      work(input, output);
    } finally {
      closeSync(output);
    }
  } finally {
    closeSync(input);
  }
}
