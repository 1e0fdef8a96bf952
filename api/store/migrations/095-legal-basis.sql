-- On what ground research use rests, and who decided for a minor.
ALTER TABLE research_consents ADD COLUMN legal_basis TEXT;
ALTER TABLE research_consents ADD COLUMN guardian TEXT NOT NULL DEFAULT '';

-- The yearly question about athletes who no longer run: when it was last answered with 'keep'.
CREATE TABLE retention_answers (
  athlete_id INTEGER PRIMARY KEY REFERENCES athletes ON DELETE CASCADE,
  kept_utc   TEXT NOT NULL,
  reason     TEXT NOT NULL DEFAULT ''
) STRICT;
