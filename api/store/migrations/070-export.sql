-- Research export: who agreed to it, and what left the house when.

CREATE TABLE research_consents (
  athlete_id   INTEGER PRIMARY KEY REFERENCES athletes ON DELETE CASCADE,
  status       TEXT NOT NULL CHECK (status IN ('unknown', 'given', 'refused', 'withdrawn')),
  status_date  TEXT NOT NULL,
  note         TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE TABLE research_exports (
  export_id    INTEGER PRIMARY KEY,
  created_utc  TEXT NOT NULL,
  export_order TEXT NOT NULL,
  athletes     INTEGER NOT NULL,
  left_out     INTEGER NOT NULL,
  repetitions  INTEGER NOT NULL,
  contacts     INTEGER NOT NULL,
  version      TEXT NOT NULL
) STRICT;

CREATE TABLE research_export_athletes (
  export_id   INTEGER NOT NULL REFERENCES research_exports ON DELETE CASCADE,
  athlete_id  INTEGER NOT NULL REFERENCES athletes ON DELETE CASCADE,
  PRIMARY KEY (export_id, athlete_id)
) STRICT, WITHOUT ROWID;

-- The key that turns identifiers into pseudonyms. It never leaves the database.
CREATE TABLE pseudonym_key (
  key_id  INTEGER PRIMARY KEY CHECK (key_id = 1),
  secret  BLOB NOT NULL
) STRICT;
