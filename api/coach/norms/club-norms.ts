import { FaultError, fault } from '../../../shared/fault.ts';
import type { AthleteBesideOthers, ClubNorms } from '../../../shared/schemas/coach/norms.ts';
import { returningSince } from '../returning.ts';
import { getAthlete } from '../../store/athletes.ts';
import type { Store } from '../../store/store.ts';
import { fingerprint, type NormsDocument } from './norms-document.ts';
import { besideOthers } from './others-like.ts';

interface StoredNorms {
  document: NormsDocument;
  public_key: string;
  shown: boolean;
}

/** The norms that this club fetched, in full; null where it fetched none. */
export function storedNorms(store: Store): StoredNorms | null {
  const row = store.prepare('SELECT document, public_key, shown FROM archive_norms').get() as
    | { document: string; public_key: string; shown: number }
    | undefined;
  if (row === undefined) return null;
  return { ...row, document: JSON.parse(row.document) as NormsDocument, shown: row.shown === 1 };
}

/** What those norms are; null where none were fetched. */
export function clubNorms(store: Store): ClubNorms | null {
  const stored = storedNorms(store);
  return stored && described(stored);
}

/** Shows them beside an athlete's own normal from now on, or no longer. @throws FaultError NORMS_NOT_FOUND where none were fetched */
export function showNorms(store: Store, shown: boolean): ClubNorms {
  store.prepare('UPDATE archive_norms SET shown = ?').run(shown ? 1 : 0);
  const norms = clubNorms(store);
  if (norms === null) throw new FaultError(fault('NORMS_NOT_FOUND.here', {}));
  return norms;
}

/**
 * One athlete beside others alike, where that is wanted. Of somebody who returns from an injury values stand alone, as everywhere.
 * @throws FaultError ATHLETE_NOT_FOUND
 */
export function athleteBesideOthers(store: Store, athlete_id: number, today: string): AthleteBesideOthers {
  const { sex, birth_date } = getAthlete(store, athlete_id);
  const stored = storedNorms(store);
  if (stored === null) return { norms: null, bands: [] };
  const alone = !stored.shown || returningSince(store, athlete_id) !== null || sex === null || birth_date === null;
  return { norms: described(stored), bands: alone ? [] : besideOthers(store, stored.document, athlete_id, today) };
}

function described({ document, public_key, shown }: StoredNorms): ClubNorms {
  const { programme, published_utc, version, fewest_people } = document;
  return { programme, published_utc, version, fewest_people, fingerprint: fingerprint(public_key), shown };
}
