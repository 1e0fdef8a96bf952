/** The limits a plan is checked against before a coach has changed any. */
import type { PlanLimits } from '../../shared/schemas/coach/plan.ts';

/**
 * Published figures only; whatever nobody published starts empty for the coach to fill. The figure of AAP 2007 is from memory of
 * that policy and stays to be checked against its text; everything else was read in its source.
 */
export const DEFAULT_PLAN_LIMITS: PlanLimits = {
  /** Haugen 2019, doi 10.1186/s40798-019-0221-0, table 2, acceleration: 100 to 300 m a session. */
  speed_distance_max_m: 300,
  /** Haugen 2019, table 2, acceleration: 10 to 50 m. */
  speed_repetition_max_m: 50,
  technique_repetition_max_m: null,
  /** Moran 2017, Int J Sports Med 38:1-11 (boys of 10 to 18 years): up to 16 sprints of about 20 m. */
  speed_repetitions_max: 16,
  /** Haugen 2019, table 2, acceleration: 2 to 7 min; more than the 90 s of Moran 2017. */
  speed_rest_min_s: 120,
  /** Haugen 2019, table 2, maximal velocity: 4 to 15 min. */
  flying_rest_min_s: 240,
  session_max_min: null,
  /** Moran 2017: twice weekly. */
  speed_sessions_per_week_max: 2,
  /** Haugen 2019, table 2: 48 h to the next high intensity. */
  hours_between_speed_sessions_min: 48,
  /** AAP 2007, Pediatrics 119:1242. */
  weekly_increase_max_percent: 10,
  /** AAP 2024, Pediatrics 153(2):e2023065129: at least 1 to 2 days off a week. */
  days_off_per_week_min: 1,
  focus_weeks_min: null,
  focus_weeks_max: null,
  sprint_test_interval_days: null,
};

/** Where each default is from, for screens; empty for what starts empty. */
export const PLAN_LIMIT_SOURCES: Partial<Record<keyof PlanLimits, string>> = {
  speed_distance_max_m: 'Haugen 2019, doi 10.1186/s40798-019-0221-0, table 2 (adult sprinters)',
  speed_repetition_max_m: 'Haugen 2019, table 2 (adult sprinters)',
  speed_repetitions_max: 'Moran 2017, Int J Sports Med 38:1-11 (boys of 10 to 18 years)',
  speed_rest_min_s: 'Haugen 2019, table 2 (adult sprinters); Moran 2017: more than 90 s',
  flying_rest_min_s: 'Haugen 2019, table 2 (adult sprinters)',
  speed_sessions_per_week_max: 'Moran 2017: twice weekly',
  hours_between_speed_sessions_min: 'Haugen 2019, table 2 (adult sprinters)',
  weekly_increase_max_percent: 'AAP 2007, Pediatrics 119:1242',
  days_off_per_week_min: 'AAP 2024, Pediatrics 153(2):e2023065129',
};
