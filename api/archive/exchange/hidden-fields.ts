import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { Fields } from '../rows/marks.ts';

/** How fields that tell who somebody is are written into an archive and read back. */
export interface HiddenFields {
  /** Whether this machine can read and write them; where it cannot, they stay in the archive as they are. */
  readable: boolean;
  /** @param place what they belong to: sealed fields open nowhere else */
  pack(fields: Fields, place: string): Buffer | null;
  open(bytes: Uint8Array | null, place: string): Fields;
  /** Bytes whose content tells who somebody is; null where they must not leave. */
  packBytes(bytes: Uint8Array, place: string): Uint8Array | null;
  openBytes(bytes: Uint8Array, place: string): Uint8Array | null;
}

const NONCE_BYTES = 12;
const TAG_BYTES = 16;

/** A programme with names: as they are. */
export const PLAIN: HiddenFields = {
  readable: true,
  pack: (fields) => Buffer.from(JSON.stringify(fields)),
  open: (bytes) => (bytes === null ? {} : (JSON.parse(Buffer.from(bytes).toString()) as Fields)),
  packBytes: (bytes) => bytes,
  openBytes: (bytes) => bytes,
};

/** A programme of pseudonyms, on a machine without the club's passphrase: they stay at home. */
export const WITHHELD: HiddenFields = {
  readable: false,
  pack: () => null,
  open: () => ({}),
  packBytes: () => null,
  openBytes: () => null,
};

/**
 * A programme of pseudonyms, with the club's passphrase: only the club reads them (AES-256-GCM, NIST SP 800-38D, a random nonce each;
 * what they belong to is authenticated with them).
 */
export function sealedFields(key: Uint8Array): HiddenFields {
  const seal = (bytes: Uint8Array, place: string): Buffer => {
    const nonce = randomBytes(NONCE_BYTES);
    const cipher = createCipheriv('aes-256-gcm', key, nonce);
    cipher.setAAD(Buffer.from(place));
    return Buffer.concat([nonce, cipher.update(bytes), cipher.final(), cipher.getAuthTag()]);
  };
  const unseal = (bytes: Uint8Array, place: string): Buffer => {
    try {
      const decipher = createDecipheriv('aes-256-gcm', key, bytes.subarray(0, NONCE_BYTES));
      decipher.setAAD(Buffer.from(place));
      decipher.setAuthTag(bytes.subarray(-TAG_BYTES));
      return Buffer.concat([decipher.update(bytes.subarray(NONCE_BYTES, -TAG_BYTES)), decipher.final()]);
    } catch {
      throw new FaultError(fault('ARCHIVE_KEY_DIFFERS', {}, { what: place }));
    }
  };
  return {
    readable: true,
    pack: (fields, place) => seal(Buffer.from(JSON.stringify(fields)), place),
    open: (bytes, place) => (bytes === null ? {} : (JSON.parse(unseal(bytes, place).toString()) as Fields)),
    packBytes: seal,
    openBytes: unseal,
  };
}
