import { type Static, Type } from 'typebox';
import {
  EffortSought,
  FaultValue,
  Id,
  LocalDate,
  listOf,
  Nullable,
  SettingsGiven,
  UtcInstant,
  wordOf,
} from './common.ts';

export const REANALYSIS_STATES = ['working', 'done', 'cancelled'] as const;

/** Which repetitions to analyse again, and with what. Without a selection: all that have a recording. */
export const NewReanalysis = Type.Object(
  {
    athlete_id: Type.Optional(Id),
    session_id: Type.Optional(Id),
    effort_percent: Type.Optional(EffortSought),
    from: Type.Optional(LocalDate),
    to: Type.Optional(LocalDate),
    settings: Type.Optional(SettingsGiven),
  },
  { additionalProperties: false },
);
export type NewReanalysis = Static<typeof NewReanalysis>;

/** How one figure of the repetitions changed: after minus before, over those that have it both times. */
export const FigureChange = Type.Object({
  quantity: Type.String(),
  n: Type.Integer(),
  unchanged: Type.Integer(),
  mean_change: Type.Number(),
  sd_change: Nullable(Type.Number()),
  largest_change: Type.Number(),
  /** Repetition with the largest change. */
  largest_repetition_id: Id,
  /** Measurable before and no longer, and the reverse. */
  lost: Type.Integer(),
  gained: Type.Integer(),
});
export type FigureChange = Static<typeof FigureChange>;

export const Reanalysis = Type.Object({
  reanalysis_id: Id,
  state: wordOf(REANALYSIS_STATES),
  /** True once the new analyses are the ones shown; the old ones stay beside them. */
  accepted: Type.Boolean(),
  settings: Nullable(Type.Record(Type.String(), Type.Unknown())),
  total: Type.Integer(),
  done: Type.Integer(),
  failed: Type.Integer(),
  created_utc: UtcInstant,
  finished_utc: Nullable(UtcInstant),
});
export type Reanalysis = Static<typeof Reanalysis>;

/** With what failed and why, and the comparison of new with old. */
export const ReanalysisReport = Type.Intersect([
  Reanalysis,
  Type.Object({
    failures: Type.Array(Type.Object({ repetition_id: Id, fault: FaultValue })),
    changes: Type.Array(FigureChange),
  }),
]);
export type ReanalysisReport = Static<typeof ReanalysisReport>;

export const ReanalysisList = listOf(Reanalysis);
