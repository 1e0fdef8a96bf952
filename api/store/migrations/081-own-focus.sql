-- A coach's own focuses with the cue in the coach's words, a cue for one athlete, who is returning from an injury, and a
-- photograph beside a rating.

-- quantities: JSON, as in shared/schemas/coach/focus.ts.
CREATE TABLE coach_focuses (
  coach_focus_id  INTEGER PRIMARY KEY,
  key             TEXT NOT NULL UNIQUE,
  name            TEXT NOT NULL,
  meaning         TEXT NOT NULL DEFAULT '',
  cue             TEXT NOT NULL DEFAULT '',
  quantities      TEXT NOT NULL DEFAULT '[]',
  deleted_utc     TEXT
) STRICT;

ALTER TABLE athlete_focuses ADD COLUMN cue TEXT NOT NULL DEFAULT '';

CREATE TABLE athlete_returns (
  athlete_id  INTEGER PRIMARY KEY REFERENCES athletes ON DELETE CASCADE,
  since_date  TEXT NOT NULL,
  note        TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE TABLE rating_photos (
  repetition_id  INTEGER NOT NULL REFERENCES repetitions ON DELETE CASCADE,
  aspect         TEXT NOT NULL,
  media_type     TEXT NOT NULL,
  bytes          BLOB NOT NULL,
  added_utc      TEXT NOT NULL,
  PRIMARY KEY (repetition_id, aspect)
) STRICT;

-- Left minus right between neighbouring steps; empty in rows of before.
ALTER TABLE repetition_values ADD COLUMN side_difference REAL;
ALTER TABLE repetition_values ADD COLUMN side_difference_u REAL;

-- Focuses that nothing published supports left the list; whoever works on one keeps it as the coach's own.
INSERT INTO coach_focuses (key, name, quantities)
  SELECT used.key, gone.name, gone.quantities
  FROM (SELECT focus AS key FROM athlete_focuses UNION SELECT aspect FROM repetition_ratings) used
  JOIN (
    SELECT 'foot_landing' AS key, 'Landing under the hip' AS name,
      '[{"quantity":"shank_angle_touchdown_deg","aim":"lower","mounting":"shank","target":null},{"quantity":"foot_pitch_touchdown_deg","aim":"no fixed direction","mounting":"foot","target":null}]' AS quantities
    UNION ALL SELECT 'push_finish', 'Finish of the push',
      '[{"quantity":"shank_rotation_deg","aim":"no fixed direction","mounting":"shank","target":null},{"quantity":"foot_pitch_toe_off_deg","aim":"no fixed direction","mounting":"foot","target":null}]'
    UNION ALL SELECT 'foot_direction', 'Foot pointing ahead',
      '[{"quantity":"foot_progression_deg","aim":"nearer zero","mounting":"foot","target":null}]'
    UNION ALL SELECT 'heel_recovery', 'Heel recovery',
      '[{"quantity":"heel_recovery_height_m","aim":"no fixed direction","mounting":"foot","target":null},{"quantity":"swing_fold_deg","aim":"no fixed direction","mounting":null,"target":null}]'
  ) gone ON gone.key = used.key;
