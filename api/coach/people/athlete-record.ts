import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { AthleteLine, AthleteRecord } from '../../../shared/schemas/coach/athlete-record.ts';
import { getAthlete, listAthletes } from '../../store/athletes.ts';
import type { Store } from '../../store/store.ts';
import { readCoachSettings } from '../coach-settings.ts';
import { ageAt } from '../../../shared/dates.ts';
import { nextTestDate } from '../tests/next-test-date.ts';
import { focusName } from '../focuses.ts';
import { currentFocuses, listFocuses, listMeasures, listSensors } from '../athlete-records.ts';
import { returningAthletes, returningSince } from '../returning.ts';

/** Everything kept about one person, with how much of what kind and where. */
export function athleteRecord(store: Store, athlete_id: number, today: string, words = JUDGEMENT_EN): AthleteRecord {
  const athlete = getAthlete(store, athlete_id);
  return {
    athlete,
    age_years: athlete.birth_date ? ageAt(athlete.birth_date, today) : null,
    measures: listMeasures(store, athlete_id),
    sensors: listSensors(store, athlete_id),
    focuses: listFocuses(store, athlete_id, today, words),
    returning: returningSince(store, athlete_id),
    stored: storedOf(store, athlete_id),
  };
}

function storedOf(store: Store, athlete_id: number): AthleteRecord['stored'] {
  const counts = store
    .prepare(
      `SELECT (SELECT COUNT(DISTINCT session_id) FROM repetitions WHERE athlete_id = @id) AS sessions,
              (SELECT COUNT(*) FROM repetitions WHERE athlete_id = @id) AS repetitions,
              (SELECT COUNT(*) FROM recordings WHERE athlete_id = @id) AS recordings,
              (SELECT COALESCE(SUM(bytes), 0) FROM raw_files WHERE raw_file_id IN
                (SELECT raw_file_id FROM recordings WHERE athlete_id = @id)) AS raw_bytes,
              (SELECT COUNT(*) FROM sprint_tests WHERE athlete_id = @id) AS sprint_tests,
              (SELECT COUNT(*) FROM strength_records WHERE athlete_id = @id) AS strength_records`,
    )
    .get({ id: athlete_id }) as Omit<AthleteRecord['stored'], 'file'>;
  return { ...counts, file: store.file };
}

/** One line an athlete: focus, last session, next test. */
export function athleteLines(store: Store, today: string, words = JUDGEMENT_EN): AthleteLine[] {
  const { plan_limits } = readCoachSettings(store);
  const last = new Map(
    (
      store
        .prepare(
          `SELECT r.athlete_id, MAX(s.session_date) AS last FROM repetitions r JOIN sessions s ON s.session_id = r.session_id
           WHERE r.deleted_utc IS NULL AND s.deleted_utc IS NULL AND r.state != 'planned' GROUP BY r.athlete_id`,
        )
        .all() as { athlete_id: number; last: string }[]
    ).map((row) => [row.athlete_id, row.last]),
  );
  const tests = new Map(
    (
      store
        .prepare('SELECT athlete_id, MAX(date) AS last FROM sprint_tests WHERE deleted_utc IS NULL GROUP BY athlete_id')
        .all() as { athlete_id: number; last: string }[]
    ).map((row) => [row.athlete_id, row.last]),
  );
  const returning = returningAthletes(store);
  return listAthletes(store).map((athlete) => {
    const next = nextTestDate(tests.get(athlete.athlete_id) ?? null, today, plan_limits.sprint_test_interval_days);
    return {
      athlete_id: athlete.athlete_id,
      name: athlete.name,
      group_ids: athlete.group_ids,
      focuses: currentFocuses(store, athlete.athlete_id, today).map(({ focus, name, weeks }) => ({
        focus,
        name: focusName(focus, name, words),
        weeks,
      })),
      returning: returning.has(athlete.athlete_id),
      last_session_date: last.get(athlete.athlete_id) ?? null,
      next_test_date: next.date,
      test_overdue_days: next.overdue_days,
    };
  });
}
