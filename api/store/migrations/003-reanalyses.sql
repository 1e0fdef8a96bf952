-- Analysing a selection again with other settings or a newer version: what was asked, and how far each repetition is.

CREATE TABLE reanalyses (
  reanalysis_id  INTEGER PRIMARY KEY,
  state          TEXT NOT NULL,
  settings       TEXT,
  accepted       INTEGER NOT NULL DEFAULT 0,
  created_utc    TEXT NOT NULL,
  finished_utc   TEXT
) STRICT;

CREATE TABLE reanalysis_items (
  reanalysis_id       INTEGER NOT NULL REFERENCES reanalyses ON DELETE CASCADE,
  repetition_id       INTEGER NOT NULL REFERENCES repetitions ON DELETE CASCADE,
  state               TEXT NOT NULL DEFAULT 'waiting',
  before_analysis_id  INTEGER REFERENCES analyses ON DELETE SET NULL,
  after_analysis_id   INTEGER REFERENCES analyses ON DELETE SET NULL,
  fault               TEXT,
  PRIMARY KEY (reanalysis_id, repetition_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX reanalysis_items_by_repetition ON reanalysis_items (repetition_id);
CREATE INDEX reanalysis_items_by_before ON reanalysis_items (before_analysis_id);
CREATE INDEX reanalysis_items_by_after ON reanalysis_items (after_analysis_id);
