import { describe, expect, test } from 'vitest';
import { listFilmTies, setFilmTie } from '../../../api/coach/film/film-ties.ts';
import { ROWS_OF_ATHLETE } from '../../../api/coach/people/person-export.ts';
import { Store } from '../../../api/store/store.ts';
import type { FilmTieBody } from '../../../shared/schemas/coach/film.ts';
import { makeAthlete, makeRepetition, makeSession } from './make-club.ts';

function club() {
  const store = Store.open(':memory:');
  const athlete_id = makeAthlete(store, 'Wren');
  const session_id = makeSession(store, '2026-03-02');
  return { store, athlete_id, repetition_id: makeRepetition(store, session_id, athlete_id, { contact_time_ms: 110 }) };
}
const tie = (changed: Partial<FilmTieBody> = {}): FilmTieBody => ({
  file_name: 'evening.mp4',
  file_bytes: 1000,
  frame_s: 1 / 240,
  marks: [{ step: 3, event: 'touchdown', film_s: 2.5, recording_s: 9.1 }],
  ...changed,
});

describe('how a film is tied', () => {
  test('is kept by name and size of the film, one tie a film, and found again', () => {
    const { store, repetition_id } = club();
    setFilmTie(store, repetition_id, tie());
    const marks = [...tie().marks, { step: 9, event: 'toe_off' as const, film_s: 4, recording_s: 10.6 }];
    setFilmTie(store, repetition_id, tie({ marks }));
    setFilmTie(store, repetition_id, tie({ file_bytes: 2000 }));
    const ties = listFilmTies(store, repetition_id);
    expect(ties.map(({ file_bytes, marks: { length } }) => [file_bytes, length]).sort()).toEqual([
      [1000, 2],
      [2000, 1],
    ]);
    expect(ties.find(({ file_bytes }) => file_bytes === 1000)!.marks).toEqual(marks);
  });

  test('goes with its last mark, and with the repetition', () => {
    const { store, repetition_id } = club();
    setFilmTie(store, repetition_id, tie());
    expect(setFilmTie(store, repetition_id, tie({ marks: [] }))).toEqual([]);
    setFilmTie(store, repetition_id, tie());
    store.database.pragma('foreign_keys = ON');
    store.database.prepare('DELETE FROM repetitions WHERE repetition_id = ?').run(repetition_id);
    expect(store.database.prepare('SELECT COUNT(*) AS n FROM film_ties').get()).toEqual({ n: 0 });
  });

  test('is part of everything that is kept about a person', () => {
    const { store, athlete_id, repetition_id } = club();
    setFilmTie(store, repetition_id, tie());
    expect(store.database.prepare(ROWS_OF_ATHLETE.film_ties).all({ id: athlete_id })).toHaveLength(1);
  });

  test('belongs to a repetition that is there', () => {
    const { store } = club();
    expect(() => setFilmTie(store, 999, tie())).toThrow('999');
  });
});
