-- Who may do what. A club reads and writes its own rows and cannot see that there are others; a scientist reads what is measured of
-- everybody, and nothing hidden; a keeper runs the archive and its workers.

GRANT USAGE ON SCHEMA archive TO cinderlane_club, cinderlane_scientist, cinderlane_keeper;

GRANT SELECT ON archive.programme, archive.migrations TO cinderlane_club, cinderlane_scientist, cinderlane_keeper;
GRANT SELECT ON archive.clubs TO cinderlane_club, cinderlane_keeper;
GRANT SELECT (club_id, name) ON archive.clubs TO cinderlane_scientist;
GRANT UPDATE (change_number, key_check) ON archive.clubs TO cinderlane_club;

GRANT SELECT, INSERT, UPDATE, DELETE ON archive.machines, archive.records, archive.raw_files, archive.raw_file_people, archive.raw_chunks,
  archive.recordings, archive.recording_chunks, archive.analyses, archive.contacts, archive.conflicts, archive.withdrawals
  TO cinderlane_club;
-- An erasure is never taken back.
GRANT SELECT, INSERT ON archive.erasures TO cinderlane_club;

GRANT SELECT ON archive.machines, archive.records, archive.raw_files, archive.raw_file_people, archive.raw_chunks, archive.recordings,
  archive.recording_chunks, archive.analyses, archive.contacts, archive.conflicts, archive.withdrawals, archive.erasures,
  archive.people, archive.sessions, archive.repetitions TO cinderlane_keeper;
GRANT INSERT ON archive.analyses, archive.contacts TO cinderlane_keeper;

GRANT SELECT (club_id, kind, record_id, person_id, fields, gone, change_number) ON archive.records TO cinderlane_scientist;
GRANT SELECT (club_id, recording_id, person_id, source, side, mounting, start_utc, sampling_rate_hz, samples, duration_s, has_gyroscope,
  acc_range_mps2, gyr_range_radps, gaps, clock_offset_s, clock_drift, clock_offset_u_s) ON archive.recordings TO cinderlane_scientist;
GRANT SELECT ON archive.recording_chunks, archive.analyses, archive.contacts, archive.people, archive.sessions, archive.repetitions
  TO cinderlane_scientist;
GRANT SELECT ON archive.people, archive.sessions, archive.repetitions TO cinderlane_club;

GRANT EXECUTE ON FUNCTION archive.own_club(), archive.remove_person(uuid, uuid), archive.make_partition(integer)
  TO cinderlane_club, cinderlane_keeper;
REVOKE EXECUTE ON FUNCTION archive.make_partition(integer), archive.own_club() FROM PUBLIC;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['clubs', 'machines', 'records', 'raw_files', 'raw_file_people', 'raw_chunks', 'recordings', 'recording_chunks',
                           'analyses', 'contacts', 'erasures', 'withdrawals', 'conflicts'] LOOP
    EXECUTE format('ALTER TABLE archive.%I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY of_own_club ON archive.%I TO cinderlane_club USING (club_id = (SELECT archive.own_club()))
                    WITH CHECK (club_id = (SELECT archive.own_club()))', t);
    EXECUTE format('CREATE POLICY of_keepers ON archive.%I TO cinderlane_keeper USING (true) WITH CHECK (true)', t);
  END LOOP;
  FOREACH t IN ARRAY ARRAY['clubs', 'recordings', 'recording_chunks', 'analyses', 'contacts'] LOOP
    EXECUTE format('CREATE POLICY of_scientists ON archive.%I FOR SELECT TO cinderlane_scientist USING (true)', t);
  END LOOP;
END $$;
-- What coaches write and plan is not research.
CREATE POLICY of_scientists ON archive.records FOR SELECT TO cinderlane_scientist
  USING (kind IN ('athletes', 'sessions', 'repetitions', 'athlete_measures', 'sprint_tests'));
