import { type Static, Type } from 'typebox';
import { SET_KINDS } from '../../coach-words.ts';
import { Id, idsOf, LocalDate, MOST_ATHLETES, Nullable, StartStyleWord, wordOf } from '../common.ts';
import { Sourced } from './caution.ts';

/** What a set of repetitions is for. Only speed sets count against the full-speed yardage. */

export const PlanSet = Type.Object({
  kind: wordOf(SET_KINDS),
  repetitions: Type.Integer({ minimum: 1, maximum: 60 }),
  distance_m: Type.Number({ exclusiveMinimum: 0, maximum: 1000 }),
  /** The unit the coach wrote it in; only how it is shown. */
  distance_unit: wordOf(['yd', 'm'] as const),
  start_style: StartStyleWord,
  /** Per cent of the athlete's full speed. */
  effort_percent: Type.Number({ minimum: 10, maximum: 110 }),
  /** Pause from the end of one repetition to the start of the same athlete's next. */
  rest_s: Type.Number({ minimum: 0, maximum: 3600 }),
  note: Type.String({ maxLength: 400 }),
});
export type PlanSet = Static<typeof PlanSet>;

export const Plan = Type.Object({
  template: Nullable(Type.String()),
  sets: Type.Array(PlanSet, { maxItems: 20 }),
});
export type Plan = Static<typeof Plan>;

/** The coach's own limits. Every one protects, can be changed, and is off when null; none asks for more. */
export const PlanLimits = Type.Object({
  speed_distance_max_m: Nullable(Type.Number({ minimum: 0, maximum: 100_000 })),
  speed_repetition_max_m: Nullable(Type.Number({ minimum: 0, maximum: 100_000 })),
  technique_repetition_max_m: Nullable(Type.Number({ minimum: 0, maximum: 100_000 })),
  speed_repetitions_max: Nullable(Type.Integer({ minimum: 1, maximum: 1000 })),
  speed_rest_min_s: Nullable(Type.Number({ minimum: 0, maximum: 100_000 })),
  /** Rest between flying sprints at maximal velocity. */
  flying_rest_min_s: Nullable(Type.Number({ minimum: 0, maximum: 100_000 })),
  session_max_min: Nullable(Type.Number({ minimum: 1, maximum: 1440 })),
  speed_sessions_per_week_max: Nullable(Type.Integer({ minimum: 1, maximum: 14 })),
  hours_between_speed_sessions_min: Nullable(Type.Number({ minimum: 0, maximum: 100_000 })),
  weekly_increase_max_percent: Nullable(Type.Number({ minimum: 0, maximum: 100_000 })),
  days_off_per_week_min: Nullable(Type.Integer({ minimum: 0, maximum: 6 })),
  focus_weeks_min: Nullable(Type.Integer({ minimum: 1, maximum: 520 })),
  focus_weeks_max: Nullable(Type.Integer({ minimum: 1, maximum: 520 })),
  sprint_test_interval_days: Nullable(Type.Integer({ minimum: 1, maximum: 365 })),
});
export type PlanLimits = Static<typeof PlanLimits>;

export const PlanTotals = Type.Object({
  repetitions: Type.Integer(),
  distance_m: Type.Number(),
  technique_distance_m: Type.Number(),
  speed_distance_m: Type.Number(),
  speed_repetitions: Type.Integer(),
  /** Running and rest of one athlete, warm-up drills not counted. */
  minutes: Type.Number(),
});
export type PlanTotals = Static<typeof PlanTotals>;

export const PlanTemplate = Type.Object({
  key: Type.String(),
  name: Type.String(),
  purpose: Type.String(),
  /** Whom the source is about; empty for none. */
  audience: Type.String(),
  source: Type.String(),
  sets: Type.Array(PlanSet),
});
export type PlanTemplate = Static<typeof PlanTemplate>;

export const PlanCheck = Type.Object({
  totals: PlanTotals,
  warnings: Type.Array(Sourced),
  cautions: Type.Array(Sourced),
});
export type PlanCheck = Static<typeof PlanCheck>;

/** A session's plan with its athletes in running order. */
export const SessionPlanBody = Type.Object(
  {
    template: Nullable(Type.String({ maxLength: 80 })),
    sets: Type.Array(PlanSet, { maxItems: 20 }),
    athlete_ids: idsOf(MOST_ATHLETES),
  },
  { additionalProperties: false },
);
export type SessionPlanBody = Static<typeof SessionPlanBody>;

export const SessionPlan = Type.Object({
  session_id: Id,
  session_date: LocalDate,
  template: Nullable(Type.String()),
  sets: Type.Array(PlanSet),
  athlete_ids: Type.Array(Id),
  check: PlanCheck,
});
export type SessionPlan = Static<typeof SessionPlan>;

/** A plan to check before it is kept. */
export const PlanQuestion = Type.Object(
  { session_date: LocalDate, sets: Type.Array(PlanSet, { maxItems: 20 }), athlete_ids: idsOf(MOST_ATHLETES) },
  { additionalProperties: false },
);
export type PlanQuestion = Static<typeof PlanQuestion>;
