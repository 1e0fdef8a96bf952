import { type Static, Type } from 'typebox';
import { SensorQuality } from '../analysis.ts';
import { FaultValue, Id, LocalDate, Nullable, UtcInstant, wordOf } from '../common.ts';
import { REPETITION_STATES } from '../repetition.ts';
import { Sourced } from './caution.ts';
import { StopRule } from './coach-settings.ts';
import { Judgement, Verdict } from './judgement.ts';
import { PlanSet, PlanTotals } from './plan.ts';

export const Rating = Type.Object({
  repetition_id: Id,
  /** A focus, or what no sensor on the leg sees: arms, head, trunk. */
  aspect: Type.String(),
  rating: Nullable(Type.Integer({ minimum: 1, maximum: 5 })),
  note: Type.String({ maxLength: 4000 }),
  /** A photograph lies beside it, at `.../ratings/{aspect}/photo`. */
  has_photo: Type.Boolean(),
});
export type Rating = Static<typeof Rating>;

export const RatingBody = Type.Object(
  { rating: Nullable(Type.Integer({ minimum: 1, maximum: 5 })), note: Type.String({ maxLength: 4000 }) },
  { additionalProperties: false },
);
export type RatingBody = Static<typeof RatingBody>;

/** One repetition as the field screen shows it. */
export const FieldRepetition = Type.Object({
  repetition_id: Id,
  order_number: Type.Integer(),
  set_number: Type.Integer(),
  state: wordOf(REPETITION_STATES),
  recorded_utc: Nullable(UtcInstant),
  /** Asked where the sensor's clock tells another day than the session; the order then goes by when it came in. */
  clock_question: Type.String(),
  /** When it was over, by the last contact: rest is counted from here. */
  rest_from_utc: UtcInstant,
  distance_m: Nullable(Type.Number()),
  effort_percent: Nullable(Type.Number()),
  time_s: Nullable(Type.Number()),
  timing_method: Nullable(Type.String()),
  speed_max_mps: Nullable(Type.Number()),
  fault: Nullable(FaultValue),
  /** How good its recordings are, one entry a sensor; empty while it is not analysed. */
  quality: Type.Array(SensorQuality),
});
export type FieldRepetition = Static<typeof FieldRepetition>;

/** What the athlete works on, as the field screen shows it. */
export const AthleteFocusNow = Type.Object({
  focus: Type.String(),
  name: Type.String(),
  /** The number shown for it; null where the sensors cannot see it. */
  quantity: Nullable(Type.String()),
  /** The coach's own words; empty when none were written. */
  cue: Type.String(),
});
export type AthleteFocusNow = Static<typeof AthleteFocusNow>;

export const FieldAthlete = Type.Object({
  athlete_id: Id,
  name: Type.String(),
  focus: Nullable(AthleteFocusNow),
  /** True while returning from an injury: values without comparison, and the caution with them. */
  returning: Type.Boolean(),
  done: Type.Integer(),
  /** Repetitions the plan holds; null without a plan. */
  planned: Nullable(Type.Integer()),
  /** What the plan says comes next; null when done or without a plan. */
  next_set: Nullable(PlanSet),
  latest: Nullable(FieldRepetition),
  /** Contact time first, then the quantity of the focus, then speed. */
  judgements: Type.Array(Judgement),
  verdict: Verdict,
  /** The verdict as one sentence, to be read or read out. */
  sentence: Type.String(),
  /** Said when the coach's stop rule is met; empty otherwise. */
  stop: Type.String(),
  ratings: Type.Array(Rating),
});
export type FieldAthlete = Static<typeof FieldAthlete>;

export const FieldView = Type.Object({
  session_id: Id,
  session_date: LocalDate,
  title: Type.String(),
  /** The server's clock at the answer, so that a device can say how old it is. */
  answered_utc: UtcInstant,
  stop_rule: StopRule,
  totals: Nullable(PlanTotals),
  /** In running order. */
  athletes: Type.Array(FieldAthlete),
  /** Who ran last; null before the first repetition. */
  latest_athlete_id: Nullable(Id),
  cautions: Type.Array(Sourced),
});
export type FieldView = Static<typeof FieldView>;
