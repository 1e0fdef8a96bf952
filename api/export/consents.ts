import type { ConsentChange, ResearchConsent } from '../../shared/schemas/export.ts';
import { getAthlete } from '../store/athletes.ts';
import type { Store } from '../store/store.ts';

/** Every athlete with what is known of their consent to use in research. */
export function listConsents(store: Store): ResearchConsent[] {
  return store
    .prepare(
      `SELECT a.athlete_id, a.name, coalesce(c.status, 'unknown') AS status, c.status_date, coalesce(c.note, '') AS note
       FROM athletes a LEFT JOIN research_consents c ON c.athlete_id = a.athlete_id
       WHERE a.deleted_utc IS NULL ORDER BY a.name`,
    )
    .all() as ResearchConsent[];
}

/** @throws FaultError ATHLETE_NOT_FOUND */
export function changeConsent(store: Store, athleteId: number, change: ConsentChange): ResearchConsent {
  getAthlete(store, athleteId);
  store
    .prepare(
      `INSERT INTO research_consents (athlete_id, status, status_date, note) VALUES (?, ?, ?, ?)
       ON CONFLICT (athlete_id) DO UPDATE SET status = excluded.status, status_date = excluded.status_date, note = excluded.note`,
    )
    .run(athleteId, change.status, change.status_date, change.note ?? '');
  return listConsents(store).find((consent) => consent.athlete_id === athleteId)!;
}
