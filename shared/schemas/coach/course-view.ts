import { type Static, Type } from 'typebox';
import { Id, LocalDate, Nullable, wordOf } from '../common.ts';
import { AthleteFocus } from './athlete-record.ts';
import { Sourced } from './caution.ts';
import { Rating } from './field-view.ts';
import { Focus } from './focus.ts';
import { BlockView, Normal } from './judgement.ts';

/** An effort and course that an athlete has run, with how often. */
export const RunCondition = Type.Object({
  key: Type.String(),
  distance_m: Nullable(Type.Number()),
  effort_percent: Nullable(Type.Number()),
  start_style: Nullable(Type.String()),
  belt_speed_mps: Nullable(Type.Number()),
  repetitions: Type.Integer(),
  last_date: LocalDate,
});
export type RunCondition = Static<typeof RunCondition>;

/** Level of one session. */
export const SessionLevel = Type.Object({
  session_id: Id,
  date: LocalDate,
  value: Type.Number(),
  n: Type.Integer(),
  left: Nullable(Type.Number()),
  right: Nullable(Type.Number()),
});
export type SessionLevel = Static<typeof SessionLevel>;

export const TrendBand = Type.Object({
  slope_per_week: Type.Number(),
  slope_low: Type.Number(),
  slope_high: Type.Number(),
  beyond_chance: Type.Boolean(),
  /** The line and its 95 % confidence band at each session. */
  band: Type.Array(Type.Object({ date: LocalDate, value: Type.Number(), low: Type.Number(), high: Type.Number() })),
});
export type TrendBand = Static<typeof TrendBand>;

/** Left against right over the sessions of a course, beside the variation within each side. */
export const SideView = Type.Object({
  left: Type.Number(),
  right: Type.Number(),
  difference: Type.Number(),
  low: Type.Number(),
  high: Type.Number(),
  within_side_sd: Type.Number(),
  beyond_chance: Type.Boolean(),
  beyond_within_side: Type.Boolean(),
  /** The athlete's usual difference; null until it is known. */
  usual: Nullable(Type.Number()),
  /** The way in which the difference leaves the usual one beyond chance; null where it does not. */
  beyond_usual: Nullable(wordOf(['above', 'below'] as const)),
  sentence: Type.String(),
});
export type SideView = Static<typeof SideView>;

/** One quantity of one athlete over time, at one effort and course. */
export const QuantityCourse = Type.Object({
  quantity: Type.String(),
  sessions: Type.Array(SessionLevel),
  /** Single repetitions, faint behind the sessions. */
  repetitions: Type.Array(Type.Object({ repetition_id: Id, date: LocalDate, value: Type.Number() })),
  trend: Nullable(TrendBand),
  /** Before and after of the block, as everywhere. */
  block: Nullable(BlockView),
  normal: Nullable(Normal),
  sides: Nullable(SideView),
  sentence: Type.String(),
});
export type QuantityCourse = Static<typeof QuantityCourse>;

export const CourseView = Type.Object({
  athlete_id: Id,
  name: Type.String(),
  growing: Type.Boolean(),
  conditions: Type.Array(RunCondition),
  condition: Nullable(RunCondition),
  /** Quantities that were measured at this condition. */
  quantities: Type.Array(Type.String()),
  course: Nullable(QuantityCourse),
  cautions: Type.Array(Sourced),
});
export type CourseView = Static<typeof CourseView>;

/** One focus of one athlete. */
export const FocusView = Type.Object({
  athlete_id: Id,
  name: Type.String(),
  focus: Focus,
  periods: Type.Array(AthleteFocus),
  condition: Nullable(RunCondition),
  courses: Type.Array(QuantityCourse),
  ratings: Type.Array(Type.Intersect([Rating, Type.Object({ date: LocalDate, order_number: Type.Integer() })])),
  cautions: Type.Array(Sourced),
});
export type FocusView = Static<typeof FocusView>;

/** How one quantity drifts through one athlete's session. */
export const FatigueLine = Type.Object({
  athlete_id: Id,
  name: Type.String(),
  quantity: Type.String(),
  distance_m: Nullable(Type.Number()),
  effort_percent: Nullable(Type.Number()),
  repetitions: Type.Array(Type.Object({ repetition_id: Id, order_number: Type.Integer(), value: Type.Number() })),
  fresh: Nullable(Type.Number()),
  last: Nullable(Type.Number()),
  change_percent: Nullable(Type.Number()),
  slope: Nullable(Type.Object({ value: Type.Number(), low: Type.Number(), high: Type.Number() })),
  stop: Type.Boolean(),
  sentence: Type.String(),
});
export type FatigueLine = Static<typeof FatigueLine>;

export const FatigueView = Type.Object({
  session_id: Id,
  session_date: LocalDate,
  title: Type.String(),
  limit_percent: Nullable(Type.Number()),
  lines: Type.Array(FatigueLine),
  cautions: Type.Array(Sourced),
});
export type FatigueView = Static<typeof FatigueView>;
