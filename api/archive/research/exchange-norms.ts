import type { KeyObject } from 'node:crypto';
import { FaultError, fault } from '../../../shared/fault.ts';
import { nowUtc, type Store } from '../../store/store.ts';
import { uuid7 } from '../../store/uuid.ts';
import type { ArchiveClient } from '../connect.ts';
import type { Duck } from './duckdb.ts';
import { normsOf } from './norms.ts';
import { storedNorms } from '../../coach/norms/club-norms.ts';
import { type NormsDocument, openNorms, type SignedNorms, signNorms } from '../../coach/norms/norms-document.ts';

/** What coaches look at first; each is published by itself. */
export const PUBLISHED_QUANTITIES = ['contact_time_ms', 'flight_time_ms', 'step_rate_hz', 'step_length_m'] as const;

/** Works out norms of an archive's files, signs them and puts them into the archive, for clubs to fetch. As a keeper. */
export async function publishNorms(client: ArchiveClient, duck: Duck, key: KeyObject): Promise<SignedNorms> {
  const { rows } = await client.query<{ name: string }>('SELECT name FROM archive.programme');
  const quantities: NormsDocument['quantities'] = [];
  for (const quantity of PUBLISHED_QUANTITIES) quantities.push({ quantity, cells: await normsOf(duck, quantity) });
  const signed = signNorms(rows[0].name, quantities, key);
  await client.query('INSERT INTO archive.norms (norms_id, document, signature, public_key) VALUES ($1, $2, $3, $4)', [
    uuid7(),
    signed.document,
    signed.signature,
    signed.public_key,
  ]);
  return signed;
}

/**
 * Fetches the newest norms to this club. The key is trusted at the first time; from then on only what it signed, and nothing older than
 * what is here.
 * @throws FaultError NORMS_NOT_FOUND, NORMS_UNTRUSTED
 */
export async function fetchNorms(
  client: ArchiveClient,
  store: Store,
): Promise<{ norms: NormsDocument; public_key: string; first: boolean }> {
  const { rows } = await client.query<SignedNorms>(
    'SELECT document, signature, public_key FROM archive.norms ORDER BY published_utc DESC LIMIT 1',
  );
  if (rows.length === 0) throw new FaultError(fault('NORMS_NOT_FOUND', {}));
  const before = storedNorms(store);
  const norms = openNorms(rows[0], before?.public_key ?? null);
  if (before && before.document.published_utc > norms.published_utc)
    return { norms: before.document, public_key: before.public_key, first: false };
  store
    .prepare(
      `INSERT INTO archive_norms (only_one, document, public_key, fetched_utc) VALUES (1, ?, ?, ?)
         ON CONFLICT DO UPDATE SET document = excluded.document, public_key = excluded.public_key, fetched_utc = excluded.fetched_utc`,
    )
    .run(rows[0].document, rows[0].public_key, nowUtc());
  return { norms, public_key: rows[0].public_key, first: before === null };
}
