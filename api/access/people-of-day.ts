import type { Store } from '../store/store.ts';

/**
 * Athletes who have to do with a day's sessions: by plan, by group, by a repetition, or because the session is theirs. Devices at the
 * track work with these.
 * @param day `2026-11-25`
 */
export function peopleOfDay(store: Store, day: string): Set<number> {
  const rows = store
    .prepare(
      `WITH today AS (SELECT session_id, group_id, athlete_id FROM sessions WHERE session_date = ? AND deleted_utc IS NULL)
       SELECT athlete_id FROM today WHERE athlete_id IS NOT NULL
       UNION SELECT m.athlete_id FROM today t JOIN group_members m ON m.group_id = t.group_id
       UNION SELECT p.athlete_id FROM today t JOIN session_athletes p ON p.session_id = t.session_id
       UNION SELECT r.athlete_id FROM today t JOIN repetitions r ON r.session_id = t.session_id WHERE r.deleted_utc IS NULL`,
    )
    .all(day) as { athlete_id: number }[];
  return new Set(rows.map(({ athlete_id }) => athlete_id));
}

/** The day of a session, or of the session that a repetition belongs to; undefined where there is none. */
export function dayOf(store: Store, of: { session_id: number } | { repetition_id: number }): string | undefined {
  const row =
    'session_id' in of
      ? store.prepare('SELECT session_date FROM sessions WHERE session_id = ?').get(of.session_id)
      : store
          .prepare('SELECT session_date FROM repetitions JOIN sessions USING (session_id) WHERE repetition_id = ?')
          .get(of.repetition_id);
  return (row as { session_date: string } | undefined)?.session_date;
}
