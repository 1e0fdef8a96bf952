import type { FilmTie, FilmTieBody } from '../../../shared/schemas/coach/film.ts';
import { getRepetitionLine } from '../../store/repetitions.ts';
import { nowUtc, type Store } from '../../store/store.ts';

/** Films tied to a repetition, the one tied last first. */
export function listFilmTies(store: Store, repetition_id: number): FilmTie[] {
  getRepetitionLine(store, repetition_id);
  const rows = store
    .prepare('SELECT * FROM film_ties WHERE repetition_id = ? ORDER BY updated_utc DESC, film_tie_id DESC')
    .all(repetition_id) as (Omit<FilmTie, 'marks'> & { marks: string })[];
  return rows.map((row) => ({ ...row, marks: JSON.parse(row.marks) as FilmTie['marks'] }));
}

/**
 * Keeps the marks of one film on one repetition, in place of those before; without a mark left the tie is gone. A film is known
 * by its name and size.
 */
export function setFilmTie(store: Store, repetition_id: number, body: FilmTieBody): FilmTie[] {
  getRepetitionLine(store, repetition_id);
  const { file_name, file_bytes, frame_s, marks } = body;
  if (marks.length === 0) {
    store
      .prepare('DELETE FROM film_ties WHERE repetition_id = ? AND file_name = ? AND file_bytes = ?')
      .run(repetition_id, file_name, file_bytes);
  } else {
    store
      .prepare(
        `INSERT INTO film_ties (repetition_id, file_name, file_bytes, frame_s, marks, updated_utc) VALUES (?, ?, ?, ?, ?, ?)
         ON CONFLICT (repetition_id, file_name, file_bytes) DO UPDATE
         SET frame_s = excluded.frame_s, marks = excluded.marks, updated_utc = excluded.updated_utc`,
      )
      .run(repetition_id, file_name, file_bytes, frame_s, JSON.stringify(marks), nowUtc());
  }
  return listFilmTies(store, repetition_id);
}
