import type { Conditions, Course } from '../../shared/analysis.ts';
import type { RepetitionLine } from '../../shared/schemas/repetition.ts';
import { getAthlete } from '../store/athletes.ts';
import { getSession } from '../store/sessions.ts';
import type { Store } from '../store/store.ts';

/** The fields of a repetition that say where and against which clock it was run. */
export type CourseFields = Pick<
  RepetitionLine,
  'course_distance_m' | 'course_time_s' | 'splits' | 'clock' | 'timing_method' | 'start_style' | 'belt_speed_mps'
>;

export function courseOf(fields: CourseFields): Course {
  return {
    distance_m: fields.course_distance_m,
    time_s: fields.course_time_s,
    splits: fields.splits,
    clock: fields.clock,
    timing_method: fields.timing_method,
    start_style: fields.start_style,
    belt_speed_mps: fields.belt_speed_mps,
  };
}

/** The athlete's body at the time and the session's air, for the kinetic estimates. */
export function conditionsOf(
  store: Store,
  { athlete_id, session_id, wind_mps }: Pick<RepetitionLine, 'athlete_id' | 'session_id' | 'wind_mps'>,
): Conditions {
  const athlete = getAthlete(store, athlete_id, true);
  const session = getSession(store, session_id, true);
  return {
    body_mass_kg: measureNearest(store, athlete_id, 'body_mass_kg', session.session_date) ?? athlete.body_mass_kg,
    stature_m: measureNearest(store, athlete_id, 'stature_m', session.session_date) ?? athlete.stature_m,
    leg_length_m: measureNearest(store, athlete_id, 'leg_length_m', session.session_date) ?? athlete.leg_length_m,
    temperature_c: session.temperature_c,
    pressure_hpa: session.pressure_hpa,
    wind_mps,
  };
}

/** The measure taken nearest to a day: an athlete grows, and an old repetition is not today's body. */
function measureNearest(
  store: Store,
  athleteId: number,
  field: 'body_mass_kg' | 'stature_m' | 'leg_length_m',
  date: string,
): number | null {
  const row = store
    .prepare(
      `SELECT ${field} AS value FROM athlete_measures
       WHERE athlete_id = ? AND ${field} IS NOT NULL AND deleted_utc IS NULL
       ORDER BY abs(julianday(date) - julianday(?)), date DESC LIMIT 1`,
    )
    .get(athleteId, date) as { value: number } | undefined;
  return row?.value ?? null;
}
