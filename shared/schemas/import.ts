import { type Static, Type } from 'typebox';
import { LONGEST_LAYOUT_TEXT } from './layout.ts';
import { FaultValue, Id, listOf, Nullable, UtcInstant, wordOf } from './common.ts';

/** queued; working: parse and analysis; done; failed: raw files kept, see `fault`; cancelled: the same. */
export const IMPORT_STATES = ['queued', 'working', 'done', 'failed', 'cancelled'] as const;

/** Fields of the multipart form beside the files `left`, `right` (or `file` where one file holds both sides). */
export const ImportFields = Type.Object(
  {
    athlete_id: Id,
    session_id: Id,
    repetition_id: Type.Optional({
      ...Id,
      description: 'A planned repetition that these files belong to.',
    } as typeof Id),
    mounting: Type.Union([Type.Literal('foot'), Type.Literal('shank')]),
    effort_percent: Type.Optional(Type.Number({ minimum: 1, maximum: 110 })),
    course: Type.Optional(
      Type.String({ maxLength: 60, description: 'Distance with its unit, such as 40yd or 36.576m.' }),
    ),
    time: Type.Optional(Type.String({ maxLength: 60, description: 'Time over the course, such as 5.21s.' })),
    splits: Type.Optional(Type.String({ maxLength: 20_000, description: 'Splits, such as 10m=2.103s,20m=3.4s.' })),
    belt_speed: Type.Optional(Type.String({ maxLength: 60, description: 'Belt speed, such as 3.55mps.' })),
    rate: Type.Optional(
      Type.String({ maxLength: 60, description: 'Sampling rate where the file has no time, such as 500hz.' }),
    ),
    clock: Type.Optional(Type.String({ maxLength: 60 })),
    timing_method: Type.Optional(Type.String({ maxLength: 60 })),
    start_style: Type.Optional(Type.String({ maxLength: 60 })),
    set_number: Type.Optional(Type.Integer({ minimum: 1, maximum: 1000 })),
    order_number: Type.Optional(Type.Integer({ minimum: 1, maximum: 10_000 })),
    wind: Type.Optional(Type.String({ maxLength: 60 })),
    surface: Type.Optional(Type.String({ maxLength: 200 })),
    footwear: Type.Optional(Type.String({ maxLength: 200 })),
    notes: Type.Optional(Type.String({ maxLength: 20_000 })),
    layout: Type.Optional(
      Type.String({
        maxLength: LONGEST_LAYOUT_TEXT,
        description: 'A layout as JSON, whole, or what is to be corrected.',
      }),
    ),
    layout_left: Type.Optional(
      Type.String({ maxLength: LONGEST_LAYOUT_TEXT, description: 'The same for the left file alone.' }),
    ),
    layout_right: Type.Optional(
      Type.String({ maxLength: LONGEST_LAYOUT_TEXT, description: 'The same for the right file alone.' }),
    ),
  },
  { additionalProperties: false },
);
export type ImportFields = Static<typeof ImportFields>;

export const Import = Type.Object({
  import_id: Id,
  state: wordOf(IMPORT_STATES),
  /** What is being done, in words. */
  step: Type.String(),
  /** 0 to 1 over the whole import. */
  progress: Type.Number(),
  athlete_id: Nullable(Id),
  session_id: Nullable(Id),
  files: Type.Array(
    Type.Object({ side: Type.String(), file_name: Type.String(), bytes: Type.Integer(), raw_sha256: Type.String() }),
  ),
  repetition_ids: Type.Array(Id),
  /** Set when the same files were imported before: the repetitions are those of that import. */
  duplicate_of: Nullable(Id),
  fault: Nullable(FaultValue),
  /** Rows set aside, doubts, and other things to know although the import succeeded. */
  faults: Type.Array(FaultValue),
  /** Rows set aside; they are listed at /imports/:import_id/rejected.csv. */
  rejected_count: Type.Integer(),
  created_utc: UtcInstant,
  finished_utc: Nullable(UtcInstant),
});
export type Import = Static<typeof Import>;

export const ImportAccepted = Type.Object({ import_id: Id });
export type ImportAccepted = Static<typeof ImportAccepted>;

export const ImportList = listOf(Import);
