-- Analysing a selection of the archive again, by workers: what was asked, how far each repetition is, who works.

CREATE SEQUENCE archive.worker_numbers AS integer;

CREATE TABLE archive.runs (
  run_id        uuid PRIMARY KEY,
  settings      text,
  version       text NOT NULL,
  created_utc   timestamptz NOT NULL DEFAULT clock_timestamp(),
  accepted_utc  timestamptz
);

-- The seconds say what a job's time went into: reading from the archive, analysing, storing.
CREATE TABLE archive.run_items (
  run_id              uuid NOT NULL REFERENCES archive.runs ON DELETE CASCADE,
  club_id             uuid NOT NULL REFERENCES archive.clubs ON DELETE CASCADE,
  repetition_id       uuid NOT NULL,
  before_analysis_id  uuid,
  after_analysis_id   uuid,
  state               text NOT NULL DEFAULT 'waiting' CHECK (state IN ('waiting', 'working', 'done', 'failed')),
  fault               jsonb,
  job_id              uuid,
  worker_number       integer,
  begun_utc           timestamptz,
  finished_utc        timestamptz,
  read_s              double precision,
  analysed_s          double precision,
  stored_s            double precision,
  read_bytes          bigint,
  PRIMARY KEY (run_id, club_id, repetition_id)
);
CREATE INDEX run_items_by_repetition ON archive.run_items (club_id, repetition_id);

-- A worker holds an advisory lock of its number as long as it lives: the server gives it back whatever way the worker ends.
CREATE TABLE archive.workers (
  worker_number  integer PRIMARY KEY,
  machine        text NOT NULL,
  version        text NOT NULL,
  started_utc    timestamptz NOT NULL DEFAULT clock_timestamp(),
  last_seen_utc  timestamptz NOT NULL DEFAULT clock_timestamp()
);

GRANT USAGE ON SEQUENCE archive.worker_numbers TO cinderlane_keeper;
GRANT SELECT, INSERT, UPDATE, DELETE ON archive.runs, archive.run_items, archive.workers TO cinderlane_keeper;
GRANT SELECT ON archive.runs, archive.run_items TO cinderlane_club, cinderlane_scientist;
GRANT DELETE ON archive.run_items TO cinderlane_club;
-- A re-analysis that is accepted as a whole changes which result of a repetition is shown, and is counted as a change of the club.
GRANT UPDATE (fields, stamps, machine_id, change_number) ON archive.records TO cinderlane_keeper;
GRANT UPDATE (change_number) ON archive.clubs TO cinderlane_keeper;

ALTER TABLE archive.run_items ENABLE ROW LEVEL SECURITY;
CREATE POLICY of_own_club ON archive.run_items TO cinderlane_club USING (club_id = (SELECT archive.own_club()));
CREATE POLICY of_keepers ON archive.run_items TO cinderlane_keeper USING (true) WITH CHECK (true);
CREATE POLICY of_scientists ON archive.run_items FOR SELECT TO cinderlane_scientist USING (true);

CREATE OR REPLACE FUNCTION archive.remove_person(of_club uuid, person uuid) RETURNS void LANGUAGE sql AS $$
  DELETE FROM archive.contacts c USING archive.analyses a
    WHERE c.club_id = of_club AND a.club_id = of_club AND a.person_id = person AND c.analysis_id = a.analysis_id AND c.day = a.day;
  DELETE FROM archive.run_items i USING archive.records r
    WHERE i.club_id = of_club AND r.club_id = of_club AND r.kind = 'repetitions' AND r.person_id = person AND i.repetition_id = r.record_id;
  DELETE FROM archive.analyses WHERE club_id = of_club AND person_id = person;
  DELETE FROM archive.recordings WHERE club_id = of_club AND person_id = person;
  DELETE FROM archive.raw_file_people WHERE club_id = of_club AND person_id = person;
  DELETE FROM archive.raw_files f WHERE f.club_id = of_club
    AND NOT EXISTS (SELECT FROM archive.raw_file_people p WHERE p.club_id = of_club AND p.raw_sha256 = f.raw_sha256);
  DELETE FROM archive.records WHERE club_id = of_club AND person_id = person;
  DELETE FROM archive.conflicts WHERE club_id = of_club AND person_id = person;
$$;
