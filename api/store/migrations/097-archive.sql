-- What this machine knows of a programme's archive (api/archive): empty, and nothing watched, until it is used.

-- machine_uuid tells this machine's changes from those of another machine of the club.
CREATE TABLE archive_link (
  link_id        INTEGER PRIMARY KEY CHECK (link_id = 1),
  archive_uuid   TEXT NOT NULL,
  club_uuid      TEXT NOT NULL,
  machine_uuid   TEXT NOT NULL,
  pulled_change  INTEGER NOT NULL DEFAULT 0
) STRICT;

-- A row as this machine and the archive last agreed on it: marks of its fields (JSON), and the archive's count of changes.
CREATE TABLE archive_rows (
  kind        TEXT NOT NULL,
  row_uuid    TEXT NOT NULL,
  athlete_id  INTEGER REFERENCES athletes ON DELETE CASCADE,
  marks       TEXT NOT NULL,
  change      INTEGER NOT NULL,
  PRIMARY KEY (kind, row_uuid)
) STRICT, WITHOUT ROWID;
CREATE INDEX archive_rows_by_athlete ON archive_rows (athlete_id);

-- When a field was changed on this machine since; written by triggers that the first exchange makes.
CREATE TABLE archive_stamps (
  kind       TEXT NOT NULL,
  local_key  TEXT NOT NULL,
  field      TEXT NOT NULL,
  at_utc     TEXT NOT NULL,
  PRIMARY KEY (kind, local_key, field)
) STRICT, WITHOUT ROWID;

-- The same field changed on two machines: what was kept, and what was not.
CREATE TABLE archive_conflicts (
  conflict_uuid  TEXT PRIMARY KEY,
  kind           TEXT NOT NULL,
  row_uuid       TEXT NOT NULL,
  athlete_id     INTEGER REFERENCES athletes ON DELETE CASCADE,
  field          TEXT NOT NULL,
  kept           TEXT NOT NULL,
  kept_utc       TEXT NOT NULL,
  other          TEXT NOT NULL,
  other_utc      TEXT NOT NULL,
  found_utc      TEXT NOT NULL
) STRICT;
CREATE INDEX archive_conflicts_by_athlete ON archive_conflicts (athlete_id);

-- People whose data the archive gave back because they did not agree any longer.
CREATE TABLE archive_withdrawals (
  person_uuid  TEXT PRIMARY KEY,
  asked_utc    TEXT NOT NULL
) STRICT, WITHOUT ROWID;
