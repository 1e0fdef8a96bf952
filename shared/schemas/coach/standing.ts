import { type Static, Type } from 'typebox';
import { Id, LocalDate, Nullable } from '../common.ts';
import { Returning } from './athlete-record.ts';
import { Sourced } from './caution.ts';
import { QuantityCourse, RunCondition } from './course-view.ts';
import { AthleteFocusNow } from './field-view.ts';
import { BlockView, Judgement, Verdict } from './judgement.ts';
import { TimeChange } from './sprint-test.ts';

/** What an athlete works on, with the coach's aim for it. */
export const FocusStanding = Type.Intersect([
  AthleteFocusNow,
  Type.Object({
    from_date: LocalDate,
    weeks: Type.Number(),
    /** The value that the coach wants to see, in the quantity's own unit; null without one. */
    target: Nullable(Type.Number()),
  }),
]);
export type FocusStanding = Static<typeof FocusStanding>;

/** The latest test of the series tested last. */
export const LastTest = Type.Object({
  title: Type.String(),
  date: LocalDate,
  time_s: Type.Number(),
  best_s: Type.Number(),
  best_date: LocalDate,
  /** Against the test before; null with one test. */
  since_last: Nullable(TimeChange),
});
export type LastTest = Static<typeof LastTest>;

/** One of the athlete's numbers: its last day against normal, and before and after of the block. */
export const NumberNow = Type.Object({
  quantity: Type.String(),
  /** Of the last like repetition, with all like repetitions of its day in `today`. */
  judgement: Judgement,
  date: LocalDate,
  /** The day's level against normal in words; the block's sentence is the course's. */
  against_normal: Type.String(),
  course: QuantityCourse,
});
export type NumberNow = Static<typeof NumberNow>;

/** One session of one athlete in one line. */
export const SessionOfAthlete = Type.Object({
  session_id: Id,
  session_date: LocalDate,
  title: Type.String(),
  repetitions: Type.Integer(),
  verdict: Verdict,
  /** The verdict as one sentence. */
  sentence: Type.String(),
});
export type SessionOfAthlete = Static<typeof SessionOfAthlete>;

/** How one athlete stands now. */
export const AthleteNow = Type.Object({
  athlete_id: Id,
  name: Type.String(),
  focus: Nullable(FocusStanding),
  returning: Nullable(Returning),
  /** Effort and course that the numbers are of; null while nothing was measured. */
  condition: Nullable(RunCondition),
  /** At most three, that of the focus first. */
  numbers: Type.Array(NumberNow),
  last_test: Nullable(LastTest),
  next_test: Type.Object({ date: Nullable(LocalDate), overdue_days: Type.Integer(), why: Type.String() }),
  next_session: Nullable(Type.Object({ session_id: Id, session_date: LocalDate, title: Type.String() })),
  /** The latest ones, newest first. */
  sessions: Type.Array(SessionOfAthlete),
  cautions: Type.Array(Sourced),
});
export type AthleteNow = Static<typeof AthleteNow>;

/** One repetition on a session's page, judged on what the athlete works on. */
export const RepetitionMark = Type.Object({
  repetition_id: Id,
  order_number: Type.Integer(),
  course_distance_m: Nullable(Type.Number()),
  course_time_s: Nullable(Type.Number()),
  effort_percent: Nullable(Type.Number()),
  speed_max_mps: Nullable(Type.Number()),
  /** On the quantity of the session's verdict; null without a result. */
  judged: Nullable(
    Type.Object({
      value: Type.Number(),
      value_u: Nullable(Type.Number()),
      kind: Judgement.properties.kind,
      beyond: Judgement.properties.beyond,
      wanted: Judgement.properties.wanted,
      /** Normal at this repetition's own effort and course, one typical error round the centre. */
      normal_low: Nullable(Type.Number()),
      normal_high: Nullable(Type.Number()),
    }),
  ),
});
export type RepetitionMark = Static<typeof RepetitionMark>;

/** One athlete's session: the verdict on it and a mark for each repetition. */
export const AthleteSession = Type.Object({
  athlete_id: Id,
  name: Type.String(),
  focus: Nullable(AthleteFocusNow),
  returning: Type.Boolean(),
  /** On the last repetition of the hardest effort, with all like ones of the day. */
  verdict: Verdict,
  sentence: Type.String(),
  marks: Type.Array(RepetitionMark),
});
export type AthleteSession = Static<typeof AthleteSession>;

export const SessionVerdicts = Type.Object({
  session_id: Id,
  athletes: Type.Array(AthleteSession),
  cautions: Type.Array(Sourced),
});
export type SessionVerdicts = Static<typeof SessionVerdicts>;

/** One athlete of a group: what changed, what is due, the best time. */
export const GroupLine = Type.Object({
  athlete_id: Id,
  name: Type.String(),
  group_ids: Type.Array(Id),
  returning: Type.Boolean(),
  focus: Nullable(FocusStanding),
  /** True past the coach's own limit of weeks on one focus. */
  focus_over: Type.Boolean(),
  /** Before and after of the block on the quantity of the focus; null until that can be told. */
  change: Nullable(BlockView),
  last_session: Nullable(Type.Object({ session_id: Id, session_date: LocalDate })),
  next_test_date: Nullable(LocalDate),
  test_overdue_days: Type.Integer(),
  last_test: Nullable(LastTest),
});
export type GroupLine = Static<typeof GroupLine>;

export const GroupStanding = Type.Object({ items: Type.Array(GroupLine), cautions: Type.Array(Sourced) });
export type GroupStanding = Static<typeof GroupStanding>;
