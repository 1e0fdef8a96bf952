import { createPrivateKey, createPublicKey, generateKeyPairSync, type KeyObject, sign, verify } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { FaultError, fault } from '../../../shared/fault.ts';
import { canonicalJson, sha256 } from '../../measuring/provenance.ts';
import { VERSION } from '../../version.ts';
import { FEWEST_PEOPLE, type NormBand } from '../../../shared/schemas/coach/norms.ts';

/** Norms as they go to clubs: what they are over, and bands of people alike. */
export interface NormsDocument {
  programme: string;
  published_utc: string;
  /** Of the program that made them. */
  version: string;
  fewest_people: number;
  quantities: { quantity: string; cells: NormBand[] }[];
}

export interface SignedNorms {
  document: string;
  signature: Uint8Array;
  /** PEM. */
  public_key: string;
}

/** Reads the programme's key, or makes it: Ed25519 (RFC 8032), readable by its owner only. @throws FaultError FILE_NOT_FOUND */
export function readNormsKey(file: string): KeyObject {
  if (!existsSync(file)) {
    const { privateKey } = generateKeyPairSync('ed25519');
    writeFileSync(file, privateKey.export({ type: 'pkcs8', format: 'pem' }), { mode: 0o600, flag: 'wx' });
  }
  try {
    const key = createPrivateKey(readFileSync(file));
    if (key.asymmetricKeyType === 'ed25519') return key;
  } catch {
    // Told below: whatever it is, it is no such key.
  }
  throw new FaultError(fault('FILE_NOT_FOUND.norms_key', { file }, { file }));
}

export function signNorms(
  programme: string,
  quantities: NormsDocument['quantities'],
  key: KeyObject,
  now = new Date(),
): SignedNorms {
  const document: NormsDocument = {
    programme,
    published_utc: now.toISOString(),
    version: VERSION,
    fewest_people: FEWEST_PEOPLE,
    quantities: quantities.map(({ quantity, cells }) => ({ quantity, cells: cells.map(rounded) })),
  };
  const text = canonicalJson(document);
  const public_key = createPublicKey(key).export({ type: 'spki', format: 'pem' }) as string;
  return { document: text, signature: sign(null, Buffer.from(text), key), public_key };
}

/**
 * Checks norms that came from an archive and reads them.
 * @param trusted the key that was trusted before; null for the first time
 * @throws FaultError NORMS_UNTRUSTED for another key, a signature that does not fit, or a cell of too few people
 */
export function openNorms({ document, signature, public_key }: SignedNorms, trusted: string | null): NormsDocument {
  if (trusted !== null && trusted !== public_key)
    throw new FaultError(fault('NORMS_UNTRUSTED.key', { known: fingerprint(trusted), found: fingerprint(public_key) }));
  if (!verify(null, Buffer.from(document), createPublicKey(public_key), signature))
    throw new FaultError(fault('NORMS_UNTRUSTED.signature', {}));
  const norms = JSON.parse(document) as NormsDocument;
  const fewest = Math.min(...norms.quantities.flatMap(({ cells }) => cells.map(({ people }) => people)));
  if (fewest < FEWEST_PEOPLE)
    throw new FaultError(fault('NORMS_UNTRUSTED.few', { people: fewest, fewest: FEWEST_PEOPLE }));
  return norms;
}

/** How many bands a document tells of. */
export function countBands({ quantities }: Pick<NormsDocument, 'quantities'>): number {
  return quantities.reduce((sum, { cells }) => sum + cells.length, 0);
}

/** What people compare by eye or by telephone. */
export function fingerprint(public_key: string): string {
  const der = createPublicKey(public_key).export({ type: 'spki', format: 'der' });
  return (sha256(der).slice(0, 32).match(/.{4}/g) ?? []).join(' ');
}

/** Four significant digits: nobody is worked out of the last ones. */
function rounded(cell: NormBand): NormBand {
  const short = (value: number) => Number(value.toPrecision(4));
  return {
    ...cell,
    mean: short(cell.mean),
    sd: short(cell.sd),
    p05: short(cell.p05),
    p50: short(cell.p50),
    p95: short(cell.p95),
  };
}
