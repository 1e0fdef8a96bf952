import type { Returning } from '../../shared/schemas/coach/athlete-record.ts';
import { getAthlete } from '../store/athletes.ts';
import type { Store } from '../store/store.ts';

/** Since when the athlete is returning from an injury; null when not. */
export function returningSince(store: Store, athlete_id: number): Returning | null {
  const row = store.prepare('SELECT since_date, note FROM athlete_returns WHERE athlete_id = ?').get(athlete_id);
  return (row as Returning | undefined) ?? null;
}

/** Everyone who is. */
export function returningAthletes(store: Store): Set<number> {
  const rows = store.prepare('SELECT athlete_id FROM athlete_returns').all() as { athlete_id: number }[];
  return new Set(rows.map((row) => row.athlete_id));
}

/** Marks an athlete as returning from an injury, or with null takes the mark away. */
export function setReturning(store: Store, athlete_id: number, returning: Returning | null): Returning | null {
  getAthlete(store, athlete_id);
  if (returning === null) store.prepare('DELETE FROM athlete_returns WHERE athlete_id = ?').run(athlete_id);
  else {
    store
      .prepare(
        `INSERT INTO athlete_returns (athlete_id, since_date, note) VALUES (?, ?, ?)
         ON CONFLICT (athlete_id) DO UPDATE SET since_date = excluded.since_date, note = excluded.note`,
      )
      .run(athlete_id, returning.since_date, returning.note);
  }
  return returningSince(store, athlete_id);
}
