import type { RetentionQuestion } from '../../../shared/schemas/retention.ts';
import { getAthlete } from '../../store/athletes.ts';
import { nowUtc, type Store } from '../../store/store.ts';

/**
 * Whose data may no longer be needed (GDPR Art. 5 (1) e): no session within a year, and the question not answered within a year. Nothing
 * is ever erased by itself; the answer is to keep, with a reason, or to erase.
 * @param today `2026-11-25`
 */
export function retentionQuestions(store: Store, today: string): RetentionQuestion[] {
  const rows = store
    .prepare(
      `SELECT a.athlete_id, a.name, a.deleted_utc IS NOT NULL AS deleted, k.kept_utc,
              (SELECT max(s.session_date) FROM repetitions r JOIN sessions s USING (session_id) WHERE r.athlete_id = a.athlete_id)
                AS last_session_date
         FROM athletes a LEFT JOIN retention_answers k USING (athlete_id)
        WHERE coalesce(last_session_date, substr(a.created_utc, 1, 10)) < @year_ago
          AND (k.kept_utc IS NULL OR substr(k.kept_utc, 1, 10) < @year_ago)
        ORDER BY a.name, a.athlete_id`,
    )
    .all({ year_ago: yearBefore(today) }) as (Omit<RetentionQuestion, 'deleted'> & { deleted: number })[];
  return rows.map((row) => ({ ...row, deleted: row.deleted === 1 }));
}

/** Answers the question for a year. @throws FaultError ATHLETE_NOT_FOUND */
export function keepForAYear(store: Store, athlete_id: number, reason = ''): void {
  getAthlete(store, athlete_id, true);
  store
    .prepare(
      `INSERT INTO retention_answers (athlete_id, kept_utc, reason) VALUES (?, ?, ?)
         ON CONFLICT DO UPDATE SET kept_utc = excluded.kept_utc, reason = excluded.reason`,
    )
    .run(athlete_id, nowUtc(), reason);
}

function yearBefore(date: string): string {
  return `${String(Number(date.slice(0, 4)) - 1).padStart(4, '0')}${date.slice(4)}`;
}
