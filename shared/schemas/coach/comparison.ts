import { type Static, Type } from 'typebox';
import { COMPARED_KINDS } from '../../coach-words.ts';
import { Id, LocalDate, MountingWord, Nullable, SideWord, wordOf } from '../common.ts';
import { Sourced } from './caution.ts';
import { RunCondition } from './course-view.ts';

/**
 * One side of a comparison, as an address has it: `3.12.40` is repetition 40 in session 12 of athlete 3, `3.12` that session of the
 * athlete, `3.2026-11-01.2026-11-21` a block of theirs.
 */
export const ComparedKey = Type.String({
  pattern: '^\\d+(?:\\.\\d+){1,2}$|^\\d+\\.\\d{4}-\\d{2}-\\d{2}\\.\\d{4}-\\d{2}-\\d{2}$',
  maxLength: 60,
});

export const ComparisonQuestion = Type.Object({
  kind: wordOf(COMPARED_KINDS),
  a: ComparedKey,
  b: ComparedKey,
  /** Effort and course, by the key of a condition that both sides ran; the one both ran most without it. */
  condition: Type.Optional(Type.String({ maxLength: 80 })),
  length: Type.Optional(wordOf(['m', 'yd', 'ft'] as const)),
});
export type ComparisonQuestion = Static<typeof ComparisonQuestion>;

/** A step of a repetition, or the mean of the same step over several. */
export const ComparedStep = Type.Object({
  step: Type.Integer(),
  /** 'unknown' where the same step was left in one repetition and right in another. */
  side: SideWord,
  distance_m: Nullable(Type.Number()),
  values: Type.Record(Type.String(), Type.Object({ value: Type.Number(), u: Nullable(Type.Number()) })),
});
export type ComparedStep = Static<typeof ComparedStep>;

export const ComparedSide = Type.Object({
  key: Type.String(),
  athlete_id: Id,
  name: Type.String(),
  returning: Type.Boolean(),
  /** `repetition 3 of 21 November`. */
  title: Type.String(),
  first_date: Nullable(LocalDate),
  last_date: Nullable(LocalDate),
  sessions: Type.Integer(),
  repetitions: Type.Integer(),
  contacts: Type.Integer(),
  mountings: Type.Array(MountingWord),
  steps: Type.Array(ComparedStep),
});
export type ComparedSide = Static<typeof ComparedSide>;

/** One quantity on both sides. */
export const ComparedQuantity = Type.Object({
  quantity: Type.String(),
  a: Type.Number(),
  b: Type.Number(),
  /** b minus a. */
  difference: Type.Number(),
  /**
   * 95 % half-width of the difference by measuring alone: the repeatable part of the error within an athlete, all of it between two.
   * Null where it is not known.
   */
  measuring_half: Nullable(Type.Number()),
  /** 95 % interval of the difference with what an athlete varies by from day to day and run to run; null where that is unknown. */
  low: Nullable(Type.Number()),
  high: Nullable(Type.Number()),
  /** Probability, 0.5 to 1, that the levels differ in the direction of the difference. */
  certainty: Nullable(Type.Number()),
  told: wordOf(['beyond chance', 'likely', 'may be chance', 'not judged'] as const),
  sentence: Type.String(),
});
export type ComparedQuantity = Static<typeof ComparedQuantity>;

export const Comparison = Type.Object({
  kind: wordOf(COMPARED_KINDS),
  a: ComparedSide,
  b: ComparedSide,
  same_athlete: Type.Boolean(),
  /** Conditions that both sides ran. */
  conditions: Type.Array(RunCondition),
  condition: Nullable(RunCondition),
  quantities: Type.Array(ComparedQuantity),
  /** What stands in the way of reading it, in plain sentences. */
  notes: Type.Array(Type.String()),
  cautions: Type.Array(Sourced),
});
export type Comparison = Static<typeof Comparison>;
