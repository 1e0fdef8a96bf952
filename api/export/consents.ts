import { ADULT_FROM, ageAt, localDate } from '../../shared/dates.ts';
import type { ConsentChange, ResearchConsent } from '../../shared/schemas/export.ts';
import { getAthlete } from '../store/athletes.ts';
import type { Store } from '../store/store.ts';

type Row = Omit<ResearchConsent, 'guardian_missing'> & { birth_date: string | null };

/** Every athlete with what is known of their consent to use in research. */
export function listConsents(store: Store, today = localDate(new Date())): ResearchConsent[] {
  const rows = store
    .prepare(
      `SELECT a.athlete_id, a.name, a.birth_date, coalesce(c.status, 'unknown') AS status, c.status_date,
              coalesce(c.note, '') AS note, c.legal_basis, coalesce(c.guardian, '') AS guardian
       FROM athletes a LEFT JOIN research_consents c ON c.athlete_id = a.athlete_id
       WHERE a.deleted_utc IS NULL ORDER BY a.name`,
    )
    .all() as Row[];
  return rows.map(({ birth_date, ...consent }) => {
    const minor = birth_date !== null && ageAt(birth_date, consent.status_date ?? today) < ADULT_FROM;
    return { ...consent, guardian_missing: minor && consent.status === 'given' && consent.guardian.trim() === '' };
  });
}

/** Changes what is given; guardian and legal basis stay where they are not. @throws FaultError ATHLETE_NOT_FOUND */
export function changeConsent(store: Store, athleteId: number, change: ConsentChange): ResearchConsent {
  getAthlete(store, athleteId);
  const before = listConsents(store).find((consent) => consent.athlete_id === athleteId)!;
  const { legal_basis = before.legal_basis, guardian = before.guardian } = change;
  store
    .prepare(
      `INSERT INTO research_consents (athlete_id, status, status_date, note, legal_basis, guardian) VALUES (?, ?, ?, ?, ?, ?)
       ON CONFLICT (athlete_id) DO UPDATE SET status = excluded.status, status_date = excluded.status_date, note = excluded.note,
         legal_basis = excluded.legal_basis, guardian = excluded.guardian`,
    )
    .run(athleteId, change.status, change.status_date, change.note ?? '', legal_basis, guardian);
  return listConsents(store).find((consent) => consent.athlete_id === athleteId)!;
}
