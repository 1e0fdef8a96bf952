-- A programme's archive: what many clubs measured. Rows that may change are `records` with their fields as JSON, so that a new field needs
-- no change here; what never changes (recordings, raw files, analyses, contacts) has tables of its own. Every table begins with the club.

CREATE TABLE archive.programme (
  only_one      boolean PRIMARY KEY DEFAULT true CHECK (only_one),
  archive_uuid  uuid NOT NULL,
  name          text NOT NULL,
  -- named: names and free text as they are; pseudonyms: these sealed by each club, if they leave at all.
  level         text NOT NULL CHECK (level IN ('named', 'pseudonyms')),
  created_utc   timestamptz NOT NULL DEFAULT now()
);

-- salt, key_check: of the club's own passphrase, which never comes here. change_number counts what changed, in the order it was committed.
CREATE TABLE archive.clubs (
  club_id        uuid PRIMARY KEY,
  name           text NOT NULL UNIQUE,
  role_name      name NOT NULL UNIQUE,
  salt           bytea NOT NULL,
  key_check      bytea,
  change_number  bigint NOT NULL DEFAULT 0,
  created_utc    timestamptz NOT NULL DEFAULT now()
);

CREATE TABLE archive.machines (
  club_id        uuid NOT NULL REFERENCES archive.clubs ON DELETE CASCADE,
  machine_id     uuid NOT NULL,
  label          text NOT NULL,
  version        text NOT NULL,
  last_push_utc  timestamptz,
  last_pull_utc  timestamptz,
  PRIMARY KEY (club_id, machine_id)
);

-- fields: what every programme has. hidden: the others as JSON, sealed where the level is pseudonyms. stamps: when each field was written.
CREATE TABLE archive.records (
  club_id        uuid NOT NULL REFERENCES archive.clubs ON DELETE CASCADE,
  kind           text NOT NULL,
  record_id      uuid NOT NULL,
  person_id      uuid,
  fields         jsonb NOT NULL,
  hidden         bytea,
  stamps         jsonb NOT NULL,
  gone           boolean NOT NULL DEFAULT false,
  machine_id     uuid NOT NULL,
  change_number  bigint NOT NULL,
  PRIMARY KEY (club_id, kind, record_id)
);
CREATE INDEX records_by_change ON archive.records (club_id, change_number);
CREATE INDEX records_by_person ON archive.records (club_id, person_id);

CREATE TABLE archive.raw_files (
  club_id     uuid NOT NULL REFERENCES archive.clubs ON DELETE CASCADE,
  raw_sha256  text NOT NULL,
  bytes       bigint NOT NULL,
  file_name   bytea,
  sealed      boolean NOT NULL,
  created_utc text NOT NULL,
  PRIMARY KEY (club_id, raw_sha256)
);

-- Whose a raw file is: of more than one where the same file was imported for two.
CREATE TABLE archive.raw_file_people (
  club_id     uuid NOT NULL,
  raw_sha256  text NOT NULL,
  person_id   uuid NOT NULL,
  PRIMARY KEY (club_id, raw_sha256, person_id),
  FOREIGN KEY (club_id, raw_sha256) REFERENCES archive.raw_files ON DELETE CASCADE
);
CREATE INDEX raw_file_people_by_person ON archive.raw_file_people (club_id, person_id);

-- Bytes as in the club's store: chunks of at most 1 MiB, each gzip or plain.
CREATE TABLE archive.raw_chunks (
  club_id     uuid NOT NULL,
  raw_sha256  text NOT NULL,
  sequence    integer NOT NULL,
  encoding    text NOT NULL,
  bytes       bytea NOT NULL,
  PRIMARY KEY (club_id, raw_sha256, sequence),
  FOREIGN KEY (club_id, raw_sha256) REFERENCES archive.raw_files ON DELETE CASCADE
);
ALTER TABLE archive.raw_chunks ALTER COLUMN bytes SET STORAGE EXTERNAL;

-- description: JSON as text, byte for byte what the club has. hidden: names of files and what was read from their heads.
CREATE TABLE archive.recordings (
  club_id           uuid NOT NULL REFERENCES archive.clubs ON DELETE CASCADE,
  recording_id      uuid NOT NULL,
  person_id         uuid NOT NULL,
  import_id         uuid,
  raw_sha256        text,
  source            text NOT NULL,
  side              text NOT NULL,
  mounting          text NOT NULL,
  start_utc         text,
  sampling_rate_hz  double precision NOT NULL,
  samples           integer NOT NULL,
  duration_s        double precision NOT NULL,
  has_gyroscope     integer NOT NULL,
  acc_range_mps2    double precision,
  gyr_range_radps   double precision,
  gaps              text NOT NULL,
  clock_offset_s    double precision NOT NULL,
  clock_drift       double precision NOT NULL,
  clock_offset_u_s  double precision NOT NULL,
  created_utc       text NOT NULL,
  hidden            bytea,
  PRIMARY KEY (club_id, recording_id)
);
CREATE INDEX recordings_by_person ON archive.recordings (club_id, person_id);

CREATE TABLE archive.recording_chunks (
  club_id       uuid NOT NULL,
  recording_id  uuid NOT NULL,
  channel       text NOT NULL,
  sequence      integer NOT NULL,
  first_sample  integer NOT NULL,
  samples       integer NOT NULL,
  bytes         bytea NOT NULL,
  PRIMARY KEY (club_id, recording_id, channel, sequence),
  FOREIGN KEY (club_id, recording_id) REFERENCES archive.recordings ON DELETE CASCADE
);
ALTER TABLE archive.recording_chunks ALTER COLUMN bytes SET STORAGE EXTERNAL;

-- day: that of the session when it came here; it says in which partition the contacts lie and never changes.
-- run_id: the re-analysis that made it here; null for what a club made. One result of a run counts for each repetition.
CREATE TABLE archive.analyses (
  club_id          uuid NOT NULL REFERENCES archive.clubs ON DELETE CASCADE,
  analysis_id      uuid NOT NULL,
  repetition_id    uuid NOT NULL,
  person_id        uuid NOT NULL,
  run_id           uuid,
  day              date NOT NULL,
  created_utc      text NOT NULL,
  version          text NOT NULL,
  method           text NOT NULL,
  settings         text NOT NULL,
  settings_sha256  text NOT NULL,
  raw_sha256       text NOT NULL,
  filters          text NOT NULL,
  result           text NOT NULL,
  summary          text NOT NULL,
  quality          text NOT NULL,
  faults           text NOT NULL,
  figures          jsonb NOT NULL,
  "values"         jsonb NOT NULL,
  arrived_utc      timestamptz NOT NULL DEFAULT clock_timestamp(),
  PRIMARY KEY (club_id, analysis_id),
  UNIQUE (club_id, repetition_id, run_id)
);
CREATE INDEX analyses_by_person ON archive.analyses (club_id, person_id);

-- One row a contact, a partition a year. Columns of quantities follow shared/fields.ts (api/archive/upgrade-schema.ts).
CREATE TABLE archive.contacts (
  club_id           uuid NOT NULL,
  day               date NOT NULL,
  analysis_id       uuid NOT NULL,
  step              integer NOT NULL,
  repetition        integer NOT NULL,
  side              text NOT NULL,
  phase             text,
  confidence        double precision NOT NULL,
  assumes_symmetry  integer NOT NULL,
  spatial_source    text,
  reasons           text NOT NULL,
  other_fields      text NOT NULL,
  PRIMARY KEY (club_id, analysis_id, step, day)
) PARTITION BY RANGE (day);

-- What was asked to be erased for good. It wins over everything that still comes.
CREATE TABLE archive.erasures (
  club_id    uuid NOT NULL REFERENCES archive.clubs ON DELETE CASCADE,
  person_id  uuid NOT NULL,
  asked_utc  text NOT NULL,
  PRIMARY KEY (club_id, person_id)
);

-- People who do not agree any longer: nothing of theirs is here, and their club keeps it.
CREATE TABLE archive.withdrawals (
  club_id    uuid NOT NULL REFERENCES archive.clubs ON DELETE CASCADE,
  person_id  uuid NOT NULL,
  status     text NOT NULL,
  asked_utc  text NOT NULL,
  PRIMARY KEY (club_id, person_id)
);

-- The same field changed on two machines of a club: both values (JSON), sealed where the field is.
CREATE TABLE archive.conflicts (
  club_id       uuid NOT NULL REFERENCES archive.clubs ON DELETE CASCADE,
  conflict_id   uuid NOT NULL,
  kind          text NOT NULL,
  record_id     uuid NOT NULL,
  person_id     uuid,
  field         text NOT NULL,
  kept_utc      text NOT NULL,
  other_utc     text NOT NULL,
  "values"      bytea NOT NULL,
  found_utc     timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (club_id, conflict_id)
);

-- The club of whoever is connected; null for others.
CREATE FUNCTION archive.own_club() RETURNS uuid LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, pg_temp
  AS $$ SELECT club_id FROM archive.clubs WHERE role_name = session_user $$;

-- Whoever was erased, or does not agree any longer, gets no new rows, whichever way they come.
CREATE FUNCTION archive.refuse_erased() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT FROM archive.erasures e WHERE e.club_id = NEW.club_id AND e.person_id = NEW.person_id)
     OR EXISTS (SELECT FROM archive.withdrawals w WHERE w.club_id = NEW.club_id AND w.person_id = NEW.person_id) THEN
    RAISE EXCEPTION 'person % left the archive', NEW.person_id USING ERRCODE = 'AR001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER records_refuse_erased BEFORE INSERT OR UPDATE ON archive.records FOR EACH ROW WHEN (NEW.person_id IS NOT NULL)
  EXECUTE FUNCTION archive.refuse_erased();
CREATE TRIGGER recordings_refuse_erased BEFORE INSERT ON archive.recordings FOR EACH ROW EXECUTE FUNCTION archive.refuse_erased();
CREATE TRIGGER analyses_refuse_erased BEFORE INSERT ON archive.analyses FOR EACH ROW EXECUTE FUNCTION archive.refuse_erased();
CREATE TRIGGER raw_file_people_refuse_erased BEFORE INSERT ON archive.raw_file_people
  FOR EACH ROW EXECUTE FUNCTION archive.refuse_erased();

-- Deletes everything of one person; run as whoever calls it, so row security holds.
CREATE FUNCTION archive.remove_person(of_club uuid, person uuid) RETURNS void LANGUAGE sql AS $$
  DELETE FROM archive.contacts c USING archive.analyses a
    WHERE c.club_id = of_club AND a.club_id = of_club AND a.person_id = person AND c.analysis_id = a.analysis_id AND c.day = a.day;
  DELETE FROM archive.analyses WHERE club_id = of_club AND person_id = person;
  DELETE FROM archive.recordings WHERE club_id = of_club AND person_id = person;
  DELETE FROM archive.raw_file_people WHERE club_id = of_club AND person_id = person;
  DELETE FROM archive.raw_files f WHERE f.club_id = of_club
    AND NOT EXISTS (SELECT FROM archive.raw_file_people p WHERE p.club_id = of_club AND p.raw_sha256 = f.raw_sha256);
  DELETE FROM archive.records WHERE club_id = of_club AND person_id = person;
  DELETE FROM archive.conflicts WHERE club_id = of_club AND person_id = person;
$$;

-- Makes the partition that a day's contacts lie in.
CREATE FUNCTION archive.make_partition(of_year integer) RETURNS void LANGUAGE plpgsql SECURITY DEFINER
  SET search_path = pg_catalog, pg_temp AS $$
DECLARE part text := format('contacts_%s', of_year);
BEGIN
  IF of_year NOT BETWEEN 1900 AND 2999 THEN RAISE EXCEPTION 'no year: %', of_year; END IF;
  IF to_regclass('archive.' || part) IS NOT NULL THEN RETURN; END IF;
  PERFORM pg_advisory_xact_lock(hashtext('archive.make_partition'));
  EXECUTE format('CREATE TABLE IF NOT EXISTS archive.%I PARTITION OF archive.contacts FOR VALUES FROM (%L) TO (%L)',
    part, make_date(of_year, 1, 1), make_date(of_year + 1, 1, 1));
END $$;

-- What scientists read: fields by their names, with the rights of who asks.
CREATE VIEW archive.people WITH (security_invoker = true) AS
  SELECT club_id, record_id AS person_id, fields->>'pseudonym' AS pseudonym, fields->>'sex' AS sex,
         (fields->>'birth_year')::integer AS birth_year, (fields->>'body_mass_kg')::double precision AS body_mass_kg,
         (fields->>'stature_m')::double precision AS stature_m, (fields->>'leg_length_m')::double precision AS leg_length_m,
         fields->>'deleted_utc' AS deleted_utc
  FROM archive.records WHERE kind = 'athletes' AND NOT gone;

CREATE VIEW archive.sessions WITH (security_invoker = true) AS
  SELECT club_id, record_id AS session_id, (fields->>'session_date')::date AS session_date, fields->>'surface' AS surface,
         (fields->>'temperature_c')::double precision AS temperature_c, (fields->>'pressure_hpa')::double precision AS pressure_hpa,
         fields->>'deleted_utc' AS deleted_utc
  FROM archive.records WHERE kind = 'sessions' AND NOT gone;

CREATE VIEW archive.repetitions WITH (security_invoker = true) AS
  SELECT club_id, record_id AS repetition_id, person_id, (fields->>'session_id')::uuid AS session_id,
         (fields->>'analysis_id')::uuid AS analysis_id, (fields->>'set_number')::integer AS set_number,
         (fields->>'order_number')::integer AS order_number, (fields->>'effort_percent')::double precision AS effort_percent,
         (fields->>'course_distance_m')::double precision AS course_distance_m,
         (fields->>'course_time_s')::double precision AS course_time_s, fields->>'timing_method' AS timing_method,
         fields->>'start_style' AS start_style, (fields->>'wind_mps')::double precision AS wind_mps, fields->>'state' AS state,
         fields->>'recorded_utc' AS recorded_utc, fields->>'deleted_utc' AS deleted_utc
  FROM archive.records WHERE kind = 'repetitions' AND NOT gone;
