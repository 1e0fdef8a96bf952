-- Named layouts, used again for files of the same shape; rows of a file that were set aside.

CREATE TABLE layouts (
  layout_id    INTEGER PRIMARY KEY,
  name         TEXT NOT NULL,
  fingerprint  TEXT NOT NULL,
  layout       TEXT NOT NULL,
  created_utc  TEXT NOT NULL,
  updated_utc  TEXT NOT NULL,
  deleted_utc  TEXT
) STRICT;
CREATE INDEX layouts_by_fingerprint ON layouts (fingerprint);

ALTER TABLE imports ADD COLUMN rejected_rows TEXT NOT NULL DEFAULT '[]';
ALTER TABLE imports ADD COLUMN rejected_count INTEGER NOT NULL DEFAULT 0;
