-- What an athlete works on is called a focus; a rating has an aspect: a focus, or 'arms', 'head', 'trunk'.

ALTER TABLE athlete_points RENAME TO athlete_focuses;
ALTER TABLE athlete_focuses RENAME COLUMN athlete_point_id TO athlete_focus_id;
ALTER TABLE athlete_focuses RENAME COLUMN point TO focus;
DROP INDEX athlete_points_by_athlete;
CREATE INDEX athlete_focuses_by_athlete ON athlete_focuses (athlete_id, from_date);

ALTER TABLE repetition_ratings RENAME COLUMN point TO aspect;

UPDATE settings SET value = json_remove(
    json_set(value,
      '$.plan_limits.focus_weeks_min', json_extract(value, '$.plan_limits.technique_point_weeks_min'),
      '$.plan_limits.focus_weeks_max', json_extract(value, '$.plan_limits.technique_point_weeks_max')),
    '$.plan_limits.technique_point_weeks_min', '$.plan_limits.technique_point_weeks_max')
  WHERE name = 'coach' AND json_type(value, '$.plan_limits') = 'object';
