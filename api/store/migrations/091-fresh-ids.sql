-- The highest identifier ever given in a table. SQLite gives the highest one again once its row is gone; an erased person's number,
-- and the pseudonym made of it, must never be the next person's.
CREATE TABLE last_ids (
  table_name TEXT PRIMARY KEY,
  last_id INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- Erasures that were asked for. No name: a number that is never used again.
CREATE TABLE erasures (
  athlete_id INTEGER PRIMARY KEY,
  asked_utc TEXT NOT NULL,
  done_utc TEXT
) STRICT;
