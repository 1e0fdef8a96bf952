import { type Static, Type } from 'typebox';
import {
  ClockStartWord,
  FaultValue,
  Id,
  LocalDate,
  Nullable,
  ReasonText,
  Split,
  TimingMethodWord,
  wordOf,
} from './common.ts';

/** set: the repetition had no time; replace: it takes the place of one; keep: the one there is measured better and stays. */
export const TIMING_ACTIONS = ['set', 'replace', 'keep'] as const;

/** Times of a timing file that belong to one repetition. */
export const MatchedTiming = Type.Object({
  repetition_id: Id,
  athlete_name: Type.String(),
  session_date: LocalDate,
  /** Place among the athlete's repetitions of the session. */
  repetition: Type.Integer(),
  action: wordOf(TIMING_ACTIONS),
  distance_m: Type.Number(),
  time_s: Type.Number(),
  splits: Type.Array(Split),
  method: Nullable(TimingMethodWord),
  clock: Nullable(ClockStartWord),
  /** Smallest step that the times are written to, seconds. */
  resolution_s: Type.Number(),
  /** What stays beside in the repetition's notes: times of other methods, or of this file where `action` is keep. */
  noted: Type.String(),
});
export type MatchedTiming = Static<typeof MatchedTiming>;

export const TimingAnswer = Type.Object({
  matched: Type.Array(MatchedTiming),
  unmatched: Type.Array(Type.Object({ lines: Type.Array(Type.Integer()), why: ReasonText })),
  rejected: Type.Array(
    Type.Object({
      line: Type.Integer(),
      column: Nullable(Type.String()),
      found: ReasonText,
      expected: ReasonText,
    }),
  ),
  faults: Type.Array(FaultValue),
  /** True when the times were put in; false for a look before. */
  applied: Type.Boolean(),
});
export type TimingAnswer = Static<typeof TimingAnswer>;

export const TimingQuery = Type.Object({
  file_name: Type.String({ minLength: 1, maxLength: 255 }),
  apply: Type.Optional(Type.Boolean({ description: 'Puts the times in; without it nothing is changed.' })),
  method: Type.Optional(TimingMethodWord),
});
