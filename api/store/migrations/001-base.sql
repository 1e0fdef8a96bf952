-- Athletes, groups, sessions, repetitions; raw files as they came; recordings as chunk blobs; imports; analyses.
-- Names and units are those of shared/fields.ts. Instants are ISO 8601 UTC text; deletion is a mark (deleted_utc).

CREATE TABLE athletes (
  athlete_id    INTEGER PRIMARY KEY,
  name          TEXT NOT NULL,
  sex           TEXT,
  birth_date    TEXT,
  body_mass_kg  REAL,
  stature_m     REAL,
  leg_length_m  REAL,
  footwear      TEXT,
  notes         TEXT NOT NULL DEFAULT '',
  created_utc   TEXT NOT NULL,
  updated_utc   TEXT NOT NULL,
  deleted_utc   TEXT
) STRICT;

CREATE TABLE groups (
  group_id     INTEGER PRIMARY KEY,
  name         TEXT NOT NULL,
  notes        TEXT NOT NULL DEFAULT '',
  created_utc  TEXT NOT NULL,
  updated_utc  TEXT NOT NULL,
  deleted_utc  TEXT
) STRICT;

CREATE TABLE group_members (
  group_id      INTEGER NOT NULL REFERENCES groups ON DELETE CASCADE,
  athlete_id    INTEGER NOT NULL REFERENCES athletes ON DELETE CASCADE,
  order_number  INTEGER NOT NULL,
  PRIMARY KEY (group_id, athlete_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX group_members_by_athlete ON group_members (athlete_id);

CREATE TABLE sessions (
  session_id     INTEGER PRIMARY KEY,
  session_date   TEXT NOT NULL,
  title          TEXT NOT NULL DEFAULT '',
  group_id       INTEGER REFERENCES groups ON DELETE SET NULL,
  athlete_id     INTEGER REFERENCES athletes ON DELETE SET NULL,
  place          TEXT,
  surface        TEXT,
  temperature_c  REAL,
  pressure_hpa   REAL,
  notes          TEXT NOT NULL DEFAULT '',
  created_utc    TEXT NOT NULL,
  updated_utc    TEXT NOT NULL,
  deleted_utc    TEXT
) STRICT;
CREATE INDEX sessions_by_date ON sessions (session_date);
CREATE INDEX sessions_by_athlete ON sessions (athlete_id);
CREATE INDEX sessions_by_group ON sessions (group_id);

CREATE TABLE repetitions (
  repetition_id        INTEGER PRIMARY KEY,
  session_id           INTEGER NOT NULL REFERENCES sessions ON DELETE CASCADE,
  athlete_id           INTEGER NOT NULL REFERENCES athletes ON DELETE CASCADE,
  set_number           INTEGER NOT NULL DEFAULT 1,
  order_number         INTEGER NOT NULL,
  effort_percent       REAL,
  course_distance_m    REAL,
  course_time_s        REAL,
  splits               TEXT NOT NULL DEFAULT '[]',
  clock                TEXT NOT NULL DEFAULT 'first_movement',
  timing_method        TEXT,
  start_style          TEXT,
  belt_speed_mps       REAL,
  wind_mps             REAL,
  surface              TEXT,
  footwear             TEXT,
  rest_s               REAL,
  notes                TEXT NOT NULL DEFAULT '',
  state                TEXT NOT NULL DEFAULT 'planned',
  recorded_utc         TEXT,
  number_in_recording  INTEGER,
  analysis_id          INTEGER REFERENCES analyses ON DELETE SET NULL,
  fault                TEXT,
  created_utc          TEXT NOT NULL,
  updated_utc          TEXT NOT NULL,
  deleted_utc          TEXT
) STRICT;
CREATE INDEX repetitions_by_session ON repetitions (session_id, order_number);
CREATE INDEX repetitions_by_athlete ON repetitions (athlete_id, course_distance_m, effort_percent);
CREATE INDEX repetitions_by_analysis ON repetitions (analysis_id);

-- Bytes as they came, in chunks of at most 1 MiB, each gzip or plain. Complete once raw_sha256 is set.
CREATE TABLE raw_files (
  raw_file_id  INTEGER PRIMARY KEY,
  file_name    TEXT NOT NULL,
  bytes        INTEGER NOT NULL DEFAULT 0,
  raw_sha256   TEXT UNIQUE,
  created_utc  TEXT NOT NULL
) STRICT;

CREATE TABLE raw_chunks (
  raw_file_id  INTEGER NOT NULL REFERENCES raw_files ON DELETE CASCADE,
  sequence     INTEGER NOT NULL,
  encoding     TEXT NOT NULL,
  bytes        BLOB NOT NULL,
  PRIMARY KEY (raw_file_id, sequence)
) STRICT;

CREATE TABLE imports (
  import_id     INTEGER PRIMARY KEY,
  state         TEXT NOT NULL,
  step          TEXT NOT NULL DEFAULT '',
  progress      REAL NOT NULL DEFAULT 0,
  athlete_id    INTEGER REFERENCES athletes ON DELETE SET NULL,
  session_id    INTEGER REFERENCES sessions ON DELETE SET NULL,
  fields        TEXT NOT NULL DEFAULT '{}',
  duplicate_of  INTEGER,
  fault         TEXT,
  faults        TEXT NOT NULL DEFAULT '[]',
  created_utc   TEXT NOT NULL,
  finished_utc  TEXT
) STRICT;
CREATE INDEX imports_by_state ON imports (state);
CREATE INDEX imports_by_athlete ON imports (athlete_id);
CREATE INDEX imports_by_session ON imports (session_id);

CREATE TABLE import_files (
  import_id    INTEGER NOT NULL REFERENCES imports ON DELETE CASCADE,
  side         TEXT NOT NULL,
  raw_file_id  INTEGER NOT NULL REFERENCES raw_files,
  file_name    TEXT NOT NULL,
  PRIMARY KEY (import_id, side)
) STRICT, WITHOUT ROWID;
CREATE INDEX import_files_by_raw ON import_files (raw_file_id);

-- One sensor's decoded recording.
CREATE TABLE recordings (
  recording_id      INTEGER PRIMARY KEY,
  athlete_id        INTEGER NOT NULL REFERENCES athletes ON DELETE CASCADE,
  import_id         INTEGER REFERENCES imports ON DELETE SET NULL,
  raw_file_id       INTEGER REFERENCES raw_files,
  source            TEXT NOT NULL,
  file_name         TEXT NOT NULL,
  side              TEXT NOT NULL,
  mounting          TEXT NOT NULL,
  start_utc         TEXT,
  sampling_rate_hz  REAL NOT NULL,
  samples           INTEGER NOT NULL,
  duration_s        REAL NOT NULL,
  has_gyroscope     INTEGER NOT NULL,
  acc_range_mps2    REAL,
  gyr_range_radps   REAL,
  gaps              TEXT NOT NULL DEFAULT '[]',
  layout            TEXT,
  evidence          TEXT,
  clock_offset_s    REAL NOT NULL DEFAULT 0,
  clock_drift       REAL NOT NULL DEFAULT 0,
  clock_offset_u_s  REAL NOT NULL DEFAULT 0,
  created_utc       TEXT NOT NULL
) STRICT;
CREATE INDEX recordings_by_athlete ON recordings (athlete_id);
CREATE INDEX recordings_by_import ON recordings (import_id);
CREATE INDEX recordings_by_raw ON recordings (raw_file_id);

CREATE TABLE recording_chunks (
  recording_id  INTEGER NOT NULL REFERENCES recordings ON DELETE CASCADE,
  channel       TEXT NOT NULL,
  sequence      INTEGER NOT NULL,
  first_sample  INTEGER NOT NULL,
  samples       INTEGER NOT NULL,
  bytes         BLOB NOT NULL,
  PRIMARY KEY (recording_id, channel, sequence)
) STRICT;

CREATE TABLE repetition_recordings (
  repetition_id  INTEGER NOT NULL REFERENCES repetitions ON DELETE CASCADE,
  recording_id   INTEGER NOT NULL REFERENCES recordings ON DELETE CASCADE,
  PRIMARY KEY (repetition_id, recording_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX repetition_recordings_by_recording ON repetition_recordings (recording_id);

-- Every analysis ever made of a repetition; the current one is repetitions.analysis_id. Figures of lists stand beside it.
CREATE TABLE analyses (
  analysis_id            INTEGER PRIMARY KEY,
  repetition_id          INTEGER NOT NULL REFERENCES repetitions ON DELETE CASCADE,
  created_utc            TEXT NOT NULL,
  version                TEXT NOT NULL,
  method                 TEXT NOT NULL,
  settings               TEXT NOT NULL,
  settings_sha256        TEXT NOT NULL,
  raw_sha256             TEXT NOT NULL,
  filters                TEXT NOT NULL,
  result                 TEXT NOT NULL,
  summary                TEXT NOT NULL,
  quality                TEXT NOT NULL,
  faults                 TEXT NOT NULL,
  contacts               INTEGER NOT NULL,
  figures_over           TEXT NOT NULL,
  speed_max_mps          REAL,
  speed_max_mps_u        REAL,
  contact_time_ms        REAL,
  contact_time_ms_u      REAL,
  contact_time_left_ms   REAL,
  contact_time_right_ms  REAL,
  flight_time_ms         REAL,
  flight_time_ms_u       REAL,
  step_rate_hz           REAL,
  step_rate_hz_u         REAL,
  step_length_m          REAL,
  step_length_m_u        REAL,
  duty_factor            REAL,
  distance_m             REAL,
  time_s                 REAL
) STRICT;
CREATE INDEX analyses_by_repetition ON analyses (repetition_id);

-- One row a contact; columns are the fields of Contact. A field without a column of its own is kept in other_fields.
CREATE TABLE contacts (
  analysis_id                    INTEGER NOT NULL REFERENCES analyses ON DELETE CASCADE,
  step                           INTEGER NOT NULL,
  repetition                     INTEGER NOT NULL,
  side                           TEXT NOT NULL,
  phase                          TEXT,
  confidence                     REAL NOT NULL,
  assumes_symmetry               INTEGER NOT NULL,
  spatial_source                 TEXT,
  touchdown_s                    REAL NOT NULL,
  touchdown_s_u                  REAL,
  touchdown_raw_s                REAL,
  toe_off_s                      REAL,
  toe_off_s_u                    REAL,
  toe_off_raw_s                  REAL,
  contact_time_ms                REAL,
  contact_time_ms_u              REAL,
  flight_time_ms                 REAL,
  flight_time_ms_u               REAL,
  swing_time_ms                  REAL,
  swing_time_ms_u                REAL,
  step_time_ms                   REAL,
  step_time_ms_u                 REAL,
  step_rate_hz                   REAL,
  step_rate_hz_u                 REAL,
  step_length_m                  REAL,
  step_length_m_u                REAL,
  speed_mps                      REAL,
  speed_mps_u                    REAL,
  distance_m                     REAL,
  distance_m_u                   REAL,
  duty_factor                    REAL,
  duty_factor_u                  REAL,
  stride_time_ms                 REAL,
  stride_time_ms_u               REAL,
  stride_length_m                REAL,
  stride_length_m_u              REAL,
  contact_length_m               REAL,
  foot_pitch_touchdown_deg       REAL,
  foot_pitch_touchdown_deg_u     REAL,
  foot_pitch_toe_off_deg         REAL,
  foot_pitch_toe_off_deg_u       REAL,
  foot_progression_deg           REAL,
  foot_progression_deg_u         REAL,
  shank_rotation_deg             REAL,
  shank_rotation_deg_u           REAL,
  shank_angle_touchdown_deg      REAL,
  shank_angle_touchdown_deg_u    REAL,
  heel_recovery_height_m         REAL,
  heel_recovery_height_m_u       REAL,
  swing_fold_deg                 REAL,
  swing_fold_deg_u               REAL,
  peak_swing_rate_dps            REAL,
  peak_contact_rate_dps          REAL,
  vertical_force_bw              REAL,
  vertical_force_bw_u            REAL,
  vertical_stiffness_kn_per_m    REAL,
  vertical_stiffness_kn_per_m_u  REAL,
  leg_stiffness_kn_per_m         REAL,
  leg_stiffness_kn_per_m_u       REAL,
  reasons                        TEXT NOT NULL DEFAULT '{}',
  other_fields                   TEXT NOT NULL DEFAULT '{}',
  PRIMARY KEY (analysis_id, step)
) STRICT, WITHOUT ROWID;

CREATE TABLE settings (
  name   TEXT PRIMARY KEY,
  value  TEXT NOT NULL
) STRICT, WITHOUT ROWID;
