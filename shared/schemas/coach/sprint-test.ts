import { type Static, Type } from 'typebox';
import { START_STYLES, TIMING_METHODS } from '../../words.ts';

const LocalDate = Type.String({ pattern: '^\\d{4}-\\d{2}-\\d{2}$' });
const Nullable = <T extends Parameters<typeof Type.Union>[0][number]>(schema: T) => Type.Union([schema, Type.Null()]);

export const SprintTestBody = Type.Object({
  athlete_id: Type.Integer(),
  date: LocalDate,
  distance_m: Type.Number({ exclusiveMinimum: 0, maximum: 1000 }),
  distance_unit: Type.Enum(['yd', 'm']),
  start_style: Type.Enum([...START_STYLES]),
  timing_method: Type.Enum([...TIMING_METHODS]),
  /** As read. Hand times of several watches: the middle one of three, the longer one of two. */
  time_s: Type.Number({ exclusiveMinimum: 0, maximum: 600 }),
  /** Readings of single watches, where more than one was used. */
  watches_s: Type.Array(Type.Number({ exclusiveMinimum: 0 }), { maxItems: 3, default: [] }),
  splits: Type.Array(
    Type.Object({
      distance_m: Type.Number({ exclusiveMinimum: 0 }),
      split_time_s: Type.Number({ exclusiveMinimum: 0 }),
    }),
    { maxItems: 20, default: [] },
  ),
  wind_mps: Nullable(Type.Number({ minimum: -20, maximum: 20 })),
  repetition_id: Nullable(Type.Integer()),
  note: Type.String({ maxLength: 1000, default: '' }),
});
export type SprintTestBody = Static<typeof SprintTestBody>;

export const SprintTest = Type.Intersect([
  Type.Object({ sprint_test_id: Type.Integer(), deleted_at: Nullable(Type.String()) }),
  SprintTestBody,
]);
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
  verdict: Type.Enum(['faster', 'slower', 'no real change']),
  sentence: Type.String(),
});
export type TimeChange = Static<typeof TimeChange>;
