-- An identifier that is unique everywhere beside the local number (UUID version 7, RFC 9562): what two machines know of the same thing
-- meets by it. `uuid7` is a function of the program (api/store/uuid.ts); rows of before get the moment they were made.

ALTER TABLE athletes ADD COLUMN uuid TEXT;
UPDATE athletes SET uuid = uuid7(created_utc);
CREATE UNIQUE INDEX athletes_by_uuid ON athletes (uuid);
CREATE TRIGGER athletes_get_uuid AFTER INSERT ON athletes WHEN NEW.uuid IS NULL
  BEGIN UPDATE athletes SET uuid = uuid7() WHERE athlete_id = NEW.athlete_id; END;

ALTER TABLE groups ADD COLUMN uuid TEXT;
UPDATE groups SET uuid = uuid7(created_utc);
CREATE UNIQUE INDEX groups_by_uuid ON groups (uuid);
CREATE TRIGGER groups_get_uuid AFTER INSERT ON groups WHEN NEW.uuid IS NULL
  BEGIN UPDATE groups SET uuid = uuid7() WHERE group_id = NEW.group_id; END;

ALTER TABLE sessions ADD COLUMN uuid TEXT;
UPDATE sessions SET uuid = uuid7(created_utc);
CREATE UNIQUE INDEX sessions_by_uuid ON sessions (uuid);
CREATE TRIGGER sessions_get_uuid AFTER INSERT ON sessions WHEN NEW.uuid IS NULL
  BEGIN UPDATE sessions SET uuid = uuid7() WHERE session_id = NEW.session_id; END;

ALTER TABLE repetitions ADD COLUMN uuid TEXT;
UPDATE repetitions SET uuid = uuid7(created_utc);
CREATE UNIQUE INDEX repetitions_by_uuid ON repetitions (uuid);
CREATE TRIGGER repetitions_get_uuid AFTER INSERT ON repetitions WHEN NEW.uuid IS NULL
  BEGIN UPDATE repetitions SET uuid = uuid7() WHERE repetition_id = NEW.repetition_id; END;

ALTER TABLE recordings ADD COLUMN uuid TEXT;
UPDATE recordings SET uuid = uuid7(created_utc);
CREATE UNIQUE INDEX recordings_by_uuid ON recordings (uuid);
CREATE TRIGGER recordings_get_uuid AFTER INSERT ON recordings WHEN NEW.uuid IS NULL
  BEGIN UPDATE recordings SET uuid = uuid7() WHERE recording_id = NEW.recording_id; END;

ALTER TABLE analyses ADD COLUMN uuid TEXT;
UPDATE analyses SET uuid = uuid7(created_utc);
CREATE UNIQUE INDEX analyses_by_uuid ON analyses (uuid);
CREATE TRIGGER analyses_get_uuid AFTER INSERT ON analyses WHEN NEW.uuid IS NULL
  BEGIN UPDATE analyses SET uuid = uuid7() WHERE analysis_id = NEW.analysis_id; END;

ALTER TABLE imports ADD COLUMN uuid TEXT;
UPDATE imports SET uuid = uuid7(created_utc);
CREATE UNIQUE INDEX imports_by_uuid ON imports (uuid);
CREATE TRIGGER imports_get_uuid AFTER INSERT ON imports WHEN NEW.uuid IS NULL
  BEGIN UPDATE imports SET uuid = uuid7() WHERE import_id = NEW.import_id; END;

ALTER TABLE layouts ADD COLUMN uuid TEXT;
UPDATE layouts SET uuid = uuid7(created_utc);
CREATE UNIQUE INDEX layouts_by_uuid ON layouts (uuid);
CREATE TRIGGER layouts_get_uuid AFTER INSERT ON layouts WHEN NEW.uuid IS NULL
  BEGIN UPDATE layouts SET uuid = uuid7() WHERE layout_id = NEW.layout_id; END;

ALTER TABLE athlete_measures ADD COLUMN uuid TEXT;
UPDATE athlete_measures SET uuid = uuid7();
CREATE UNIQUE INDEX athlete_measures_by_uuid ON athlete_measures (uuid);
CREATE TRIGGER athlete_measures_get_uuid AFTER INSERT ON athlete_measures WHEN NEW.uuid IS NULL
  BEGIN UPDATE athlete_measures SET uuid = uuid7() WHERE athlete_measure_id = NEW.athlete_measure_id; END;

ALTER TABLE athlete_focuses ADD COLUMN uuid TEXT;
UPDATE athlete_focuses SET uuid = uuid7();
CREATE UNIQUE INDEX athlete_focuses_by_uuid ON athlete_focuses (uuid);
CREATE TRIGGER athlete_focuses_get_uuid AFTER INSERT ON athlete_focuses WHEN NEW.uuid IS NULL
  BEGIN UPDATE athlete_focuses SET uuid = uuid7() WHERE athlete_focus_id = NEW.athlete_focus_id; END;

ALTER TABLE sprint_tests ADD COLUMN uuid TEXT;
UPDATE sprint_tests SET uuid = uuid7();
CREATE UNIQUE INDEX sprint_tests_by_uuid ON sprint_tests (uuid);
CREATE TRIGGER sprint_tests_get_uuid AFTER INSERT ON sprint_tests WHEN NEW.uuid IS NULL
  BEGIN UPDATE sprint_tests SET uuid = uuid7() WHERE sprint_test_id = NEW.sprint_test_id; END;

ALTER TABLE strength_records ADD COLUMN uuid TEXT;
UPDATE strength_records SET uuid = uuid7();
CREATE UNIQUE INDEX strength_records_by_uuid ON strength_records (uuid);
CREATE TRIGGER strength_records_get_uuid AFTER INSERT ON strength_records WHEN NEW.uuid IS NULL
  BEGIN UPDATE strength_records SET uuid = uuid7() WHERE strength_record_id = NEW.strength_record_id; END;

ALTER TABLE film_ties ADD COLUMN uuid TEXT;
UPDATE film_ties SET uuid = uuid7();
CREATE UNIQUE INDEX film_ties_by_uuid ON film_ties (uuid);
CREATE TRIGGER film_ties_get_uuid AFTER INSERT ON film_ties WHEN NEW.uuid IS NULL
  BEGIN UPDATE film_ties SET uuid = uuid7() WHERE film_tie_id = NEW.film_tie_id; END;

-- Whom an erasure was of, for the other places that hold the same person.
ALTER TABLE erasures ADD COLUMN uuid TEXT;
