import { FaultError, fault } from '../../../shared/fault.ts';
import type { AthleteBesideOthers, ClubNorms } from '../../../shared/schemas/coach/norms.ts';
import { returningSince } from '../returning.ts';
import { getAthlete } from '../../store/athletes.ts';
import type { Store } from '../../store/store.ts';
import { fingerprint, type NormsDocument } from './norms-document.ts';
import { besideOthers } from './others-like.ts';

interface Row {
  document: string;
  public_key: string;
  shown: number;
}

/** The norms that this club fetched; null where it fetched none. */
export function clubNorms(store: Store): ClubNorms | null {
  const row = rowOf(store);
  if (row === undefined) return null;
  const { programme, published_utc, version, fewest_people } = JSON.parse(row.document) as NormsDocument;
  return {
    ...{ programme, published_utc, version, fewest_people },
    fingerprint: fingerprint(row.public_key),
    shown: row.shown === 1,
  };
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
  const norms = clubNorms(store);
  const alone = norms === null || !norms.shown || returningSince(store, athlete_id) !== null;
  if (alone || sex === null || birth_date === null) return { norms, bands: [] };
  const document = JSON.parse(rowOf(store)!.document) as NormsDocument;
  return { norms, bands: besideOthers(store, document, athlete_id, today) };
}

function rowOf(store: Store): Row | undefined {
  return store.prepare('SELECT document, public_key, shown FROM archive_norms').get() as Row | undefined;
}
