import { type Static, Type } from 'typebox';
import { EffectiveFilter, RepetitionResult, SensorQuality } from './analysis.ts';
import {
  ClockStartWord,
  FaultValue,
  Id,
  LocalDate,
  listOf,
  MountingWord,
  Nullable,
  SideWord,
  Split,
  StartStyleWord,
  TimingMethodWord,
  UtcInstant,
  Uuid,
  wordOf,
} from './common.ts';
import { ContactSchema } from './contact.ts';
import { RepetitionFigures } from './figures.ts';

export { RepetitionFigures } from './figures.ts';

/** planned: not run yet; recorded: raw data kept, no analysis (yet, or it failed, see `fault`); analysed: has a result. */
export const REPETITION_STATES = ['planned', 'recorded', 'analysed'] as const;

const describedFields = {
  /** Set within the session, from 1. */
  set_number: Type.Integer({ minimum: 1, maximum: 1000 }),
  /** Running order within the session, from 1. */
  order_number: Type.Integer({ minimum: 1, maximum: 10_000 }),
  effort_percent: Nullable(
    Type.Number({ minimum: 1, maximum: 110, description: "Per cent of the athlete's full speed." }),
  ),
  course_distance_m: Nullable(Type.Number({ exclusiveMinimum: 0, maximum: 100_000 })),
  course_time_s: Nullable(Type.Number({ exclusiveMinimum: 0, maximum: 100_000 })),
  splits: Type.Array(Split, { maxItems: 1000 }),
  clock: ClockStartWord,
  timing_method: Nullable(TimingMethodWord),
  start_style: Nullable(StartStyleWord),
  belt_speed_mps: Nullable(Type.Number({ exclusiveMinimum: 0, maximum: 20 })),
  wind_mps: Nullable(Type.Number({ minimum: -20, maximum: 20 })),
  surface: Nullable(Type.String({ maxLength: 200 })),
  footwear: Nullable(Type.String({ maxLength: 200 })),
  rest_s: Nullable(Type.Number({ minimum: 0, maximum: 36_000, description: 'Rest before this repetition.' })),
  notes: Type.String({ maxLength: 20_000 }),
};

/** One repetition in a list. */
export const RepetitionLine = Type.Object({
  repetition_id: Id,
  uuid: Uuid,
  session_id: Id,
  athlete_id: Id,
  session_date: LocalDate,
  ...describedFields,
  state: wordOf(REPETITION_STATES),
  /** UTC start of the recording it lies in; null when unknown. */
  recorded_utc: Nullable(UtcInstant),
  /** Number of the repetition within its recording, from 1; null when planned. */
  number_in_recording: Nullable(Type.Integer()),
  analysis_id: Nullable(Id),
  figures: Nullable(RepetitionFigures),
  /** Why there is no result, where an analysis failed. */
  fault: Nullable(FaultValue),
  created_utc: UtcInstant,
  updated_utc: UtcInstant,
  deleted_utc: Nullable(UtcInstant),
});
export type RepetitionLine = Static<typeof RepetitionLine>;

/** One sensor's recording that a repetition rests on. */
export const RecordingLine = Type.Object({
  recording_id: Id,
  uuid: Uuid,
  side: SideWord,
  mounting: MountingWord,
  file_name: Type.String(),
  raw_sha256: Type.String(),
  raw_bytes: Type.Integer(),
  sampling_rate_hz: Nullable(Type.Number()),
  samples: Nullable(Type.Integer()),
  duration_s: Nullable(Type.Number()),
  has_gyroscope: Type.Boolean(),
  clock_offset_s: Type.Number(),
  clock_drift: Type.Number(),
  clock_offset_u_s: Type.Number(),
  start_utc: Nullable(UtcInstant),
});
export type RecordingLine = Static<typeof RecordingLine>;

/** The result of one analysis. */
export const AnalysisAnswer = Type.Object({
  analysis_id: Id,
  uuid: Uuid,
  repetition_id: Id,
  created_utc: UtcInstant,
  version: Type.String(),
  method: Type.String(),
  settings_sha256: Type.String(),
  raw_sha256: Type.Array(Type.String()),
  result: RepetitionResult,
  quality: Type.Array(SensorQuality),
  filters: Type.Array(EffectiveFilter),
  faults: Type.Array(FaultValue),
});
export type AnalysisAnswer = Static<typeof AnalysisAnswer>;

/** One analysis in a list. */
export const AnalysisLine = Type.Object({
  analysis_id: Id,
  created_utc: UtcInstant,
  version: Type.String(),
  method: Type.String(),
  settings_sha256: Type.String(),
  current: Type.Boolean(),
  figures: RepetitionFigures,
});
export type AnalysisLine = Static<typeof AnalysisLine>;

export const AnalysisList = listOf(AnalysisLine);

/** A repetition with its recordings and current analysis. */
export const Repetition = Type.Intersect([
  RepetitionLine,
  Type.Object({ recordings: Type.Array(RecordingLine), analysis: Nullable(AnalysisAnswer) }),
]);
export type Repetition = Static<typeof Repetition>;

export const RepetitionChange = Type.Partial(Type.Object(describedFields), { additionalProperties: false });
export type RepetitionChange = Static<typeof RepetitionChange>;

export const NewRepetition = Type.Object(
  { session_id: Id, athlete_id: Id, ...RepetitionChange.properties },
  { additionalProperties: false },
);
export type NewRepetition = Static<typeof NewRepetition>;

export const RepetitionList = listOf(RepetitionLine);
export type RepetitionList = Static<typeof RepetitionList>;

/** Low and high edge of normal variation round the centre. */
export const BaselinePoint = Type.Object({
  /** Step number, or metres from the start line. */
  at: Type.Number(),
  centre: Type.Number(),
  /** Edges of normal variation: one typical error from the centre. */
  low: Type.Number(),
  high: Type.Number(),
  /** Distance from the centre that chance alone does not explain. */
  flag_from: Type.Number(),
  n: Type.Integer(),
});

export const BaselineBand = Type.Object({ by_step: Type.Array(BaselinePoint), by_distance: Type.Array(BaselinePoint) });

/** What is normal for this athlete at this effort and course. */
export const ProfileBaseline = Type.Object({
  /** Repetitions it rests on. */
  n: Type.Integer(),
  /** True below six repetitions. */
  provisional: Type.Boolean(),
  quantities: Type.Record(Type.String(), BaselineBand),
});
export type ProfileBaseline = Static<typeof ProfileBaseline>;

/** Stride profile of a repetition over its baseline, with the day's earlier repetitions. */
export const RepetitionProfile = Type.Object({
  repetition_id: Id,
  contacts: Type.Array(ContactSchema),
  baseline: ProfileBaseline,
  earlier_today: Type.Array(
    Type.Object({
      repetition_id: Id,
      order_number: Type.Integer(),
      contacts: Type.Array(ContactSchema),
    }),
  ),
});
export type RepetitionProfile = Static<typeof RepetitionProfile>;

/** Bounds of a signal window. */
export const SignalQuery = Type.Object({
  side: SideWord,
  from_s: Type.Optional(Type.Number({ minimum: -1e9, maximum: 1e9 })),
  to_s: Type.Optional(Type.Number({ minimum: -1e9, maximum: 1e9 })),
  max_points: Type.Optional(Type.Integer({ minimum: 10, maximum: 200_000 })),
});
