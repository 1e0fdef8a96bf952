-- Names of athletes and their sessions in research exports: random, kept here, gone with the athlete.
CREATE TABLE athlete_pseudonyms (
  athlete_id INTEGER PRIMARY KEY REFERENCES athletes ON DELETE CASCADE,
  pseudonym  TEXT NOT NULL UNIQUE,
  day_shift  INTEGER NOT NULL CHECK (day_shift BETWEEN 1 AND 365)
) STRICT;

CREATE TABLE session_pseudonyms (
  session_id INTEGER NOT NULL REFERENCES sessions ON DELETE CASCADE,
  athlete_id INTEGER NOT NULL REFERENCES athletes ON DELETE CASCADE,
  pseudonym  TEXT NOT NULL UNIQUE,
  PRIMARY KEY (session_id, athlete_id)
) STRICT, WITHOUT ROWID;

-- Those already given out stay as they were: they were made of a key and the identifiers (api/store/keyed-pseudonyms.ts).
INSERT INTO athlete_pseudonyms (athlete_id, pseudonym, day_shift)
  SELECT DISTINCT x.athlete_id, keyed_pseudonym(k.secret, 'P', 'athlete ' || x.athlete_id),
         keyed_day_shift(k.secret, 'days ' || x.athlete_id)
    FROM research_export_athletes x CROSS JOIN pseudonym_key k;

INSERT INTO session_pseudonyms (session_id, athlete_id, pseudonym)
  SELECT DISTINCT r.session_id, r.athlete_id,
         keyed_pseudonym(k.secret, 'S', 'session ' || r.session_id || ' ' || r.athlete_id)
    FROM repetitions r JOIN athlete_pseudonyms p ON p.athlete_id = r.athlete_id CROSS JOIN pseudonym_key k;

DROP TABLE pseudonym_key;
