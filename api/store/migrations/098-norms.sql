-- A programme's norms as this club fetched them, and the key it trusts since the first time. Empty unless asked for.
CREATE TABLE archive_norms (
  only_one     INTEGER PRIMARY KEY CHECK (only_one = 1),
  document     TEXT NOT NULL,
  public_key   TEXT NOT NULL,
  fetched_utc  TEXT NOT NULL
) STRICT;
