import { generateKeyPairSync } from 'node:crypto';
import type { NormBand } from '../../shared/schemas/coach/norms.ts';
import { fingerprint, signNorms } from '../../api/coach/norms/norms-document.ts';
import { nowUtc, type Store } from '../../api/store/store.ts';

/** A band of our own invention, of adult women at full effort; what is not given is as here. */
export function normCell(cell: Partial<NormBand> = {}): NormBand {
  return {
    sex: 'female',
    age_from: 20,
    age_to: 25,
    effort_from: 95,
    effort_to: null,
    speed_from_mps: 7,
    people: 14,
    contacts: 420,
    mean: 121,
    sd: 8,
    p05: 108,
    p50: 121,
    p95: 134,
    ...cell,
  };
}

/** Puts norms into a club's database as if they had been fetched. @returns the fingerprint of their key */
export function putNorms(store: Store, cells: NormBand[]): string {
  const { privateKey } = generateKeyPairSync('ed25519');
  const quantities = [{ quantity: 'contact_time_ms', cells }];
  const { document, public_key } = signNorms(
    'Northern programme',
    quantities,
    privateKey,
    new Date('2026-11-20T08:00:00Z'),
  );
  store
    .prepare('INSERT INTO archive_norms (only_one, document, public_key, fetched_utc) VALUES (1, ?, ?, ?)')
    .run(document, public_key, nowUtc());
  return fingerprint(public_key);
}
