import { type Static, Type } from 'typebox';
import { Id, LocalDate, listOf, Nullable, SideWord, UtcInstant, Uuid } from './common.ts';
import { RepetitionLine } from './repetition.ts';

const describedFields = {
  session_date: LocalDate,
  title: Type.String({ maxLength: 200 }),
  group_id: Nullable(Id),
  athlete_id: Nullable(Id),
  place: Nullable(Type.String({ maxLength: 200 })),
  surface: Nullable(Type.String({ maxLength: 200 })),
  temperature_c: Nullable(Type.Number({ minimum: -40, maximum: 60 })),
  pressure_hpa: Nullable(Type.Number({ minimum: 500, maximum: 1100 })),
  notes: Type.String({ maxLength: 20_000 }),
};

export const Session = Type.Object({
  session_id: Id,
  uuid: Uuid,
  ...describedFields,
  /** Athletes who have a repetition in it. */
  athlete_ids: Type.Array(Id),
  repetition_count: Type.Integer(),
  analysed_count: Type.Integer(),
  created_utc: UtcInstant,
  updated_utc: UtcInstant,
  deleted_utc: Nullable(UtcInstant),
});
export type Session = Static<typeof Session>;

/** A session with its repetitions in running order, each with its summary. */
export const SessionWithRepetitions = Type.Intersect([
  Session,
  Type.Object({
    repetitions: Type.Array(RepetitionLine),
    /** What the analysis doubts about a recording, by the codes of its faults: one entry a repetition and code. */
    recording_doubts: Type.Array(Type.Object({ repetition_id: Id, code: Type.String(), sides: Type.Array(SideWord) })),
  }),
]);
export type SessionWithRepetitions = Static<typeof SessionWithRepetitions>;

export const SessionChange = Type.Partial(Type.Object(describedFields), { additionalProperties: false });
export type SessionChange = Static<typeof SessionChange>;

export const NewSession = Type.Object(
  { ...SessionChange.properties, session_date: LocalDate },
  { additionalProperties: false },
);
export type NewSession = Static<typeof NewSession>;

export const SessionList = listOf(Session);
export type SessionList = Static<typeof SessionList>;

export const SessionQuery = Type.Object({
  athlete_id: Type.Optional(Id),
  group_id: Type.Optional(Id),
  from: Type.Optional(LocalDate),
  to: Type.Optional(LocalDate),
  deleted: Type.Optional(Type.Boolean({ description: 'True lists the deleted ones instead.' })),
});
