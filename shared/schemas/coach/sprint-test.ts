import { type Static, Type } from 'typebox';
import { Id, LocalDate, Nullable, Split, StartStyleWord, TimingMethodWord, wordOf } from '../common.ts';

const fields = {
  date: LocalDate,
  distance_m: Type.Number({ exclusiveMinimum: 0, maximum: 1000 }),
  /** The unit the coach wrote the distance in; only how it is shown. */
  distance_unit: wordOf(['yd', 'm'] as const),
  start_style: StartStyleWord,
  timing_method: TimingMethodWord,
  /** As read. Of several watches: the middle of three, the longer of two. */
  time_s: Type.Number({ exclusiveMinimum: 0, maximum: 600 }),
  /** Readings of single watches, where more than one was used. */
  watches_s: Type.Array(Type.Number({ exclusiveMinimum: 0, maximum: 600 }), { maxItems: 3 }),
  splits: Type.Array(Split, { maxItems: 30 }),
  wind_mps: Nullable(Type.Number({ minimum: -20, maximum: 20 })),
  repetition_id: Nullable(Id),
  note: Type.String({ maxLength: 2000 }),
};

export const SprintTestChange = Type.Partial(Type.Object(fields), { additionalProperties: false });
export type SprintTestChange = Static<typeof SprintTestChange>;

/** `time_s` may be left out when `watches_s` holds the readings. */
export const NewSprintTest = Type.Object(
  {
    athlete_id: Id,
    ...SprintTestChange.properties,
    date: fields.date,
    distance_m: fields.distance_m,
    timing_method: fields.timing_method,
  },
  { additionalProperties: false },
);
export type NewSprintTest = Static<typeof NewSprintTest>;

export const SprintTest = Type.Object({ sprint_test_id: Id, athlete_id: Id, ...fields });
export type SprintTest = Static<typeof SprintTest>;

/** Is the difference between two times of one series more than the method's own error? */
export const TimeChange = Type.Object({
  from_date: Type.String(),
  to_date: Type.String(),
  /** Later minus earlier; negative is faster. */
  change_s: Type.Number(),
  /** Below this a difference says nothing. */
  threshold_s: Type.Number(),
  threshold_source: Type.String(),
  verdict: wordOf(['faster', 'slower', 'no real change'] as const),
  sentence: Type.String(),
});
export type TimeChange = Static<typeof TimeChange>;
