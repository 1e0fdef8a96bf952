-- More than re-analysis for workers: agreement with a reference system, and exports by ranges of people.
-- wanted: what was asked for beyond settings. repetition_id: what a job is about; of an export the first of its people. given: what it
-- needs that the archive has not. outcome: what came of it, where that is neither a result of a repetition nor a file.
ALTER TABLE archive.runs ADD COLUMN kind text NOT NULL DEFAULT 'reanalysis' CHECK (kind IN ('reanalysis', 'agreement', 'export')),
  ADD COLUMN wanted jsonb;
ALTER TABLE archive.run_items ADD COLUMN people uuid[], ADD COLUMN given jsonb, ADD COLUMN outcome jsonb;
CREATE INDEX run_items_by_people ON archive.run_items USING gin (people) WHERE people IS NOT NULL;

-- Files of an export, a part a job, until they are fetched and the run is dropped.
CREATE TABLE archive.run_files (
  run_id         uuid NOT NULL,
  club_id        uuid NOT NULL,
  repetition_id  uuid NOT NULL,
  name           text NOT NULL,
  bytes          bytea NOT NULL,
  PRIMARY KEY (run_id, club_id, repetition_id, name),
  FOREIGN KEY (run_id, club_id, repetition_id) REFERENCES archive.run_items ON DELETE CASCADE
);
ALTER TABLE archive.run_files ALTER COLUMN bytes SET STORAGE EXTERNAL;
GRANT SELECT, INSERT, DELETE ON archive.run_files TO cinderlane_keeper;
GRANT SELECT ON archive.run_files TO cinderlane_club, cinderlane_scientist;
ALTER TABLE archive.run_files ENABLE ROW LEVEL SECURITY;
CREATE POLICY of_own_club ON archive.run_files FOR SELECT TO cinderlane_club USING (club_id = (SELECT archive.own_club()));
CREATE POLICY of_keepers ON archive.run_files TO cinderlane_keeper USING (true) WITH CHECK (true);
CREATE POLICY of_scientists ON archive.run_files FOR SELECT TO cinderlane_scientist USING (true);

-- A part of an export that holds somebody who leaves is gone with them; what is left of it is done again when asked.
CREATE FUNCTION archive.drop_from_exports(of_club uuid, person uuid) RETURNS void LANGUAGE plpgsql SECURITY DEFINER
  SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  IF archive.own_club() IS DISTINCT FROM of_club AND pg_has_role(session_user, 'cinderlane_club', 'MEMBER')
     AND NOT (SELECT rolsuper FROM pg_roles WHERE rolname = session_user) THEN
    RAISE EXCEPTION 'not the club %', of_club USING ERRCODE = '42501';
  END IF;
  DELETE FROM archive.run_files f USING archive.run_items i
    WHERE i.club_id = of_club AND i.people @> ARRAY[person] AND f.club_id = of_club AND f.run_id = i.run_id AND f.repetition_id = i.repetition_id;
  UPDATE archive.run_items SET people = array_remove(people, person), state = 'failed', outcome = NULL, fault = NULL
    WHERE club_id = of_club AND people @> ARRAY[person];
END $$;
REVOKE EXECUTE ON FUNCTION archive.drop_from_exports(uuid, uuid) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION archive.drop_from_exports(uuid, uuid) TO cinderlane_club, cinderlane_keeper;

CREATE OR REPLACE FUNCTION archive.remove_person(of_club uuid, person uuid) RETURNS void LANGUAGE sql AS $$
  SELECT archive.drop_from_exports(of_club, person);
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

-- A partition is made beside the table and attached: neither who reads for long nor who writes is held up by it, or holds it up.
-- (CREATE TABLE ... PARTITION OF would ask for the whole table for itself.)
CREATE OR REPLACE FUNCTION archive.make_partition(of_year integer) RETURNS void LANGUAGE plpgsql SECURITY DEFINER
  SET search_path = pg_catalog, pg_temp AS $$
DECLARE part text := format('contacts_%s', of_year);
BEGIN
  IF of_year NOT BETWEEN 1900 AND 2999 THEN RAISE EXCEPTION 'no year: %', of_year; END IF;
  IF to_regclass('archive.' || part) IS NOT NULL THEN RETURN; END IF;
  PERFORM pg_advisory_xact_lock(hashtext('archive.make_partition'));
  -- Another one may have made it meanwhile; asked of the table itself, since what to_regclass said is remembered.
  IF EXISTS (SELECT FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace WHERE n.nspname = 'archive' AND c.relname = part)
    THEN RETURN; END IF;
  EXECUTE format('CREATE TABLE archive.%I (LIKE archive.contacts INCLUDING DEFAULTS INCLUDING CONSTRAINTS INCLUDING INDEXES)', part);
  EXECUTE format('ALTER TABLE archive.contacts ATTACH PARTITION archive.%I FOR VALUES FROM (%L) TO (%L)',
    part, make_date(of_year, 1, 1), make_date(of_year + 1, 1, 1));
END $$;
