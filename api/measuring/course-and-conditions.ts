import type { Conditions, Course } from '../../shared/analysis.ts';
import { daysBetween } from '../../shared/dates.ts';
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
  const measures = measuresOf(store, athlete_id);
  return {
    body_mass_kg: nearestMeasure(measures, 'body_mass_kg', session.session_date) ?? athlete.body_mass_kg,
    stature_m: nearestMeasure(measures, 'stature_m', session.session_date) ?? athlete.stature_m,
    leg_length_m: nearestMeasure(measures, 'leg_length_m', session.session_date) ?? athlete.leg_length_m,
    temperature_c: session.temperature_c,
    pressure_hpa: session.pressure_hpa,
    wind_mps,
  };
}

const BODY = ['body_mass_kg', 'stature_m', 'leg_length_m'] as const;
type BodyField = (typeof BODY)[number];
/** What was measured of an athlete on a day. */
export type Measure = Record<BodyField, number | null> & { date: string; deleted_utc: string | null };

/**
 * The measure taken nearest to a day, the later of two that are as near: an athlete grows, and an old repetition is not today's body.
 * @returns null where none was taken
 */
export function nearestMeasure(measures: readonly Measure[], field: BodyField, day: string): number | null {
  const away = ({ date }: Measure) => Math.abs(daysBetween(date, day));
  const taken = measures.filter((measure) => measure[field] !== null && measure.deleted_utc === null);
  const [nearest] = taken.sort((a, b) => away(a) - away(b) || (a.date < b.date ? 1 : -1));
  return nearest?.[field] ?? null;
}

function measuresOf(store: Store, athleteId: number): Measure[] {
  return store
    .prepare(`SELECT date, ${BODY.join(', ')}, deleted_utc FROM athlete_measures WHERE athlete_id = ?`)
    .all(athleteId) as Measure[];
}
