/** The limits a plan is checked against before a coach has changed any. */
import type { PlanLimits } from '../../shared/schemas/coach/plan.ts';
import { METRES_PER_YARD } from '../../shared/units.ts';

const yards = (count: number): number => count * METRES_PER_YARD;

/**
 * Two speed sessions a week on non-consecutive days, 30 to 40 minutes; technique repetitions of 30 to 80 yd; speed
 * repetitions of 20 to 60 yd, 200 to 300 yd in all; one focus for four to eight weeks; a sprint test twice a
 * month: common practice of the trade. 48 h between speed sessions: Haugen 2019, doi 10.1186/s40798-019-0221-0,
 * table 2. At most 16 sprints, more than 90 s of rest: Moran 2017, Int J Sports Med 38:1-11 (youth). Weekly increase
 * of at most 10 %: AAP 2007, Pediatrics 119:1242 (figure from memory). One day off a week: AAP 2024, e2023065129.
 */
export const DEFAULT_PLAN_LIMITS: PlanLimits = {
  speed_distance_min_m: yards(200),
  speed_distance_max_m: yards(300),
  speed_repetition_min_m: yards(20),
  speed_repetition_max_m: yards(60),
  technique_repetition_min_m: yards(30),
  technique_repetition_max_m: yards(80),
  speed_repetitions_max: 16,
  speed_rest_min_s: 90,
  session_max_min: 40,
  speed_sessions_per_week_max: 2,
  hours_between_speed_sessions_min: 48,
  weekly_increase_max_percent: 10,
  days_off_per_week_min: 1,
  focus_weeks_min: 4,
  focus_weeks_max: 8,
  sprint_test_interval_days: 14,
};
