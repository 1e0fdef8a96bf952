import type { Generated } from 'kysely';
import type { Store } from './store.ts';

/** Rows of migrations/050-coach.sql and later ones. JSON columns are text. */
export type CoachTables = {
  athlete_measures: {
    athlete_measure_id: Generated<number>;
    athlete_id: number;
    date: string;
    body_mass_kg: number | null;
    stature_m: number | null;
    leg_length_m: number | null;
    deleted_utc: string | null;
  };
  athlete_sensors: { athlete_id: number; side: string; sensor_name: string; mounting: string };
  athlete_focuses: {
    athlete_focus_id: Generated<number>;
    athlete_id: number;
    focus: string;
    from_date: string;
    to_date: string | null;
    note: Generated<string>;
    cue: Generated<string>;
    deleted_utc: string | null;
  };
  coach_focuses: {
    coach_focus_id: Generated<number>;
    key: string;
    name: string;
    meaning: Generated<string>;
    cue: Generated<string>;
    quantities: string;
    deleted_utc: string | null;
  };
  session_plans: { session_id: number; template: string | null; sets: string; updated_utc: string };
  session_athletes: { session_id: number; athlete_id: number; order_number: number };
  repetition_ratings: {
    repetition_id: number;
    aspect: string;
    rating: number | null;
    note: Generated<string>;
    updated_utc: string;
  };
  sprint_tests: {
    sprint_test_id: Generated<number>;
    athlete_id: number;
    date: string;
    distance_m: number;
    distance_unit: string;
    start_style: string;
    timing_method: string;
    time_s: number;
    watches_s: string;
    splits: string;
    wind_mps: number | null;
    repetition_id: number | null;
    note: string;
    deleted_utc: string | null;
  };
  strength_records: {
    strength_record_id: Generated<number>;
    athlete_id: number;
    date: string;
    lift: string;
    load_kg: number;
    load_unit: string;
    sets: number;
    repetitions: number;
    note: string;
    deleted_utc: string | null;
  };
  repetition_values: RepetitionValueRow;
};

export type RepetitionValueRow = {
  analysis_id: number;
  quantity: string;
  /** 'at_speed', or 'all' where the repetition has no contacts at speed. */
  stretch: string;
  value: number;
  value_u: number | null;
  n: number;
  left_value: number | null;
  left_sd: number | null;
  left_n: number | null;
  right_value: number | null;
  right_sd: number | null;
  right_n: number | null;
  /** Left minus right between neighbouring steps; null where they could not be paired. */
  side_difference: number | null;
  side_difference_u: number | null;
};

/** The store's query builder with the coach's tables beside the base ones. */
export function coachQuery(store: Store) {
  return store.query.withTables<CoachTables>();
}
