import { type Static, Type } from 'typebox';
import { EffortSought, Id, LocalDate, Nullable, ReasonText, wordOf } from './common.ts';

/** file: the reference runs on the clock of the sensor file; unrelated: it starts anywhere and is put on it by the steps. */
export const REFERENCE_CLOCKS = ['file', 'unrelated'] as const;

export const AgreementOrder = Type.Object(
  {
    reference_clock: wordOf(REFERENCE_CLOCKS),
    /** One entry a repetition: its reference contacts as CSV text (side, touchdown_s, toe_off_s, step_length_m). */
    items: Type.Array(Type.Object({ repetition_id: Id, reference_csv: Type.String({ maxLength: 5_000_000 }) }), {
      minItems: 1,
      maxItems: 1000,
    }),
  },
  { additionalProperties: false },
);
export type AgreementOrder = Static<typeof AgreementOrder>;

const Interval = Type.Object({ value: Type.Number(), low: Type.Number(), high: Type.Number() });
const Limits = Type.Object({ lower: Type.Number(), upper: Type.Number() });
/** A correlation by its form (McGraw and Wong 1996): ICC(A,1) of absolute agreement, ICC(C,1) of consistency. */
const Correlation = Type.Object({
  form: Type.String(),
  model: ReasonText,
  value: Type.Number(),
  low: Type.Number(),
  high: Type.Number(),
});

/** How one quantity agrees with the reference; differences are ours minus the reference. */
export const QuantityAgreement = Type.Object({
  quantity: Type.String(),
  unit: Type.String(),
  pairs: Type.Integer(),
  athletes: Type.Integer(),
  bias: Interval,
  sd: Type.Number(),
  /** Standard deviation of the athletes' own biases, and of the contacts around them; null with one athlete. */
  sd_between: Nullable(Type.Number()),
  sd_within: Nullable(Type.Number()),
  lower_limit: Interval,
  upper_limit: Interval,
  /** Where 95 % of one athlete's contacts lie about the athlete's own bias, and 95 % of athletes' biases about the mean; null with one. */
  limits_within: Nullable(Limits),
  limits_between: Nullable(Limits),
  /** 'repeated measures' allows for several contacts of each athlete; 'independent pairs' with one athlete only. */
  method: ReasonText,
  proportional_slope: Nullable(Interval),
  /** Difference at size zero on the line of proportional bias, in the unit. */
  proportional_intercept: Nullable(Type.Number()),
  icc: Nullable(Correlation),
  icc_consistency: Nullable(Correlation),
  typical_error: Type.Number(),
  mean_absolute_error: Type.Number(),
  root_mean_square_error: Type.Number(),
  /** Share of pairs whose difference lies within 1.96 of our stated uncertainties; null where none is stated. */
  coverage: Nullable(Type.Number()),
});
export type QuantityAgreement = Static<typeof QuantityAgreement>;

/** One matched contact and quantity. */
export const AgreementPair = Type.Object({
  quantity: Type.String(),
  athlete: Type.String(),
  recording: Type.String(),
  side: Type.String(),
  reference: Type.Number(),
  ours: Type.Number(),
  uncertainty: Nullable(Type.Number()),
});
export type AgreementPair = Static<typeof AgreementPair>;

export const AgreementRecording = Type.Object({
  recording: Type.String(),
  athlete: Type.String(),
  reference_contacts: Type.Integer(),
  matched: Type.Integer(),
  missed: Type.Integer(),
  extra: Type.Integer(),
  clock_offset_s: Type.Number(),
});
export type AgreementRecording = Static<typeof AgreementRecording>;

export const AgreementStudy = Type.Object({
  version: Type.String(),
  method: Type.String(),
  reference_clock: wordOf(REFERENCE_CLOCKS),
  recordings: Type.Array(AgreementRecording),
  quantities: Type.Array(QuantityAgreement),
  pairs: Type.Array(AgreementPair),
  /** What could not be said, and why. */
  notes: Type.Array(ReasonText),
});
export type AgreementStudy = Static<typeof AgreementStudy>;

/** Which repetitions a repeatability study compares. */
export const RepeatabilityOrder = Type.Object(
  {
    quantity: Type.String({ maxLength: 80 }),
    from: Type.Optional(LocalDate),
    to: Type.Optional(LocalDate),
    effort_from_percent: Type.Optional(EffortSought),
    effort_to_percent: Type.Optional(EffortSought),
    course_distance_m: Type.Optional(Type.Number({ minimum: 0, maximum: 100_000 })),
    group_id: Type.Optional(Id),
  },
  { additionalProperties: false },
);
export type RepeatabilityOrder = Static<typeof RepeatabilityOrder>;

export const RepeatabilityStudy = Type.Object({
  quantity: Type.String(),
  unit: Type.String(),
  /** Sessions of each athlete that are compared: the last ones that all have. */
  sessions: Type.Integer(),
  athletes: Type.Array(
    Type.Object({
      athlete_id: Id,
      name: Type.String(),
      dates: Type.Array(Type.String()),
      means: Type.Array(Type.Number()),
      repetitions: Type.Array(Type.Integer()),
    }),
  ),
  left_out: Type.Array(Type.String()),
  mean_change: Type.Number(),
  typical_error: Type.Number(),
  typical_error_percent: Nullable(Type.Number()),
  minimal_detectable_change: Type.Number(),
  icc: Correlation,
  icc_consistency: Correlation,
});
export type RepeatabilityStudy = Static<typeof RepeatabilityStudy>;
