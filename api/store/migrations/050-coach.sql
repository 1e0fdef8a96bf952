-- The coach's own records: measures over time, sensors, technique points, plans, ratings, sprint tests, strength, and
-- the values of a whole repetition that baselines and trends are made of.

CREATE TABLE athlete_measures (
  athlete_measure_id  INTEGER PRIMARY KEY,
  athlete_id          INTEGER NOT NULL REFERENCES athletes ON DELETE CASCADE,
  date                TEXT NOT NULL,
  body_mass_kg        REAL,
  stature_m           REAL,
  leg_length_m        REAL,
  deleted_utc         TEXT
) STRICT;
CREATE INDEX athlete_measures_by_athlete ON athlete_measures (athlete_id, date);

CREATE TABLE athlete_sensors (
  athlete_id   INTEGER NOT NULL REFERENCES athletes ON DELETE CASCADE,
  side         TEXT NOT NULL,
  sensor_name  TEXT NOT NULL,
  mounting     TEXT NOT NULL,
  PRIMARY KEY (athlete_id, side)
) STRICT, WITHOUT ROWID;

CREATE TABLE athlete_points (
  athlete_point_id  INTEGER PRIMARY KEY,
  athlete_id        INTEGER NOT NULL REFERENCES athletes ON DELETE CASCADE,
  point             TEXT NOT NULL,
  from_date         TEXT NOT NULL,
  to_date           TEXT,
  note              TEXT NOT NULL DEFAULT '',
  deleted_utc       TEXT
) STRICT;
CREATE INDEX athlete_points_by_athlete ON athlete_points (athlete_id, from_date);

CREATE TABLE session_plans (
  session_id  INTEGER PRIMARY KEY REFERENCES sessions ON DELETE CASCADE,
  template    TEXT,
  sets        TEXT NOT NULL,
  updated_utc TEXT NOT NULL
) STRICT;

CREATE TABLE session_athletes (
  session_id    INTEGER NOT NULL REFERENCES sessions ON DELETE CASCADE,
  athlete_id    INTEGER NOT NULL REFERENCES athletes ON DELETE CASCADE,
  order_number  INTEGER NOT NULL,
  PRIMARY KEY (session_id, athlete_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX session_athletes_by_athlete ON session_athletes (athlete_id);

-- point: a technique point, or 'arms', 'head', 'trunk', which no sensor on the leg sees.
CREATE TABLE repetition_ratings (
  repetition_id  INTEGER NOT NULL REFERENCES repetitions ON DELETE CASCADE,
  point          TEXT NOT NULL,
  rating         INTEGER,
  note           TEXT NOT NULL DEFAULT '',
  updated_utc    TEXT NOT NULL,
  PRIMARY KEY (repetition_id, point)
) STRICT, WITHOUT ROWID;

CREATE TABLE sprint_tests (
  sprint_test_id  INTEGER PRIMARY KEY,
  athlete_id      INTEGER NOT NULL REFERENCES athletes ON DELETE CASCADE,
  date            TEXT NOT NULL,
  distance_m      REAL NOT NULL,
  distance_unit   TEXT NOT NULL,
  start_style     TEXT NOT NULL,
  timing_method   TEXT NOT NULL,
  time_s          REAL NOT NULL,
  watches_s       TEXT NOT NULL DEFAULT '[]',
  splits          TEXT NOT NULL DEFAULT '[]',
  wind_mps        REAL,
  repetition_id   INTEGER REFERENCES repetitions ON DELETE SET NULL,
  note            TEXT NOT NULL DEFAULT '',
  deleted_utc     TEXT
) STRICT;
CREATE INDEX sprint_tests_by_athlete ON sprint_tests (athlete_id, date);

CREATE TABLE strength_records (
  strength_record_id  INTEGER PRIMARY KEY,
  athlete_id          INTEGER NOT NULL REFERENCES athletes ON DELETE CASCADE,
  date                TEXT NOT NULL,
  lift                TEXT NOT NULL,
  load_kg             REAL NOT NULL,
  load_unit           TEXT NOT NULL,
  sets                INTEGER NOT NULL,
  repetitions         INTEGER NOT NULL,
  note                TEXT NOT NULL DEFAULT '',
  deleted_utc         TEXT
) STRICT;
CREATE INDEX strength_records_by_athlete ON strength_records (athlete_id, date);

-- One row a quantity of one analysed repetition: its mean at speed (over all contacts where there are none at speed).
CREATE TABLE repetition_values (
  analysis_id  INTEGER NOT NULL REFERENCES analyses ON DELETE CASCADE,
  quantity     TEXT NOT NULL,
  stretch      TEXT NOT NULL,
  value        REAL NOT NULL,
  value_u      REAL,
  n            INTEGER NOT NULL,
  left_value   REAL,
  left_sd      REAL,
  left_n       INTEGER,
  right_value  REAL,
  right_sd     REAL,
  right_n      INTEGER,
  PRIMARY KEY (analysis_id, quantity)
) STRICT, WITHOUT ROWID;
