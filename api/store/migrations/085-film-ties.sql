-- How a film was tied to a repetition: frames marked as instants of contacts. The film itself stays on the device that opened it.
-- marks: JSON, as in shared/schemas/coach/film.ts.
CREATE TABLE film_ties (
  film_tie_id    INTEGER PRIMARY KEY,
  repetition_id  INTEGER NOT NULL REFERENCES repetitions ON DELETE CASCADE,
  file_name      TEXT NOT NULL,
  file_bytes     INTEGER NOT NULL,
  frame_s        REAL NOT NULL,
  marks          TEXT NOT NULL DEFAULT '[]',
  updated_utc    TEXT NOT NULL,
  UNIQUE (repetition_id, file_name, file_bytes)
) STRICT;
