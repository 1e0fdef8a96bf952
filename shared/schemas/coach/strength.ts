import { LIFTS } from '../../coach-words.ts';
import { type Static, Type } from 'typebox';
import { Sourced } from './caution.ts';
import { Id, LocalDate, Nullable, wordOf } from '../common.ts';

const fields = {
  date: LocalDate,
  lift: wordOf(LIFTS),
  load_kg: Type.Number({ exclusiveMinimum: 0, maximum: 600 }),
  /** The unit the coach wrote it in; only how it is shown. */
  load_unit: wordOf(['kg', 'lb'] as const),
  sets: Type.Integer({ minimum: 1, maximum: 30 }),
  repetitions: Type.Integer({ minimum: 1, maximum: 100 }),
  note: Type.String({ maxLength: 2000 }),
};

export const NewStrengthRecord = Type.Object(
  { athlete_id: Id, ...fields, note: Type.Optional(fields.note) },
  { additionalProperties: false },
);
export type NewStrengthRecord = Static<typeof NewStrengthRecord>;

export const StrengthRecord = Type.Object({ strength_record_id: Id, athlete_id: Id, ...fields });
export type StrengthRecord = Static<typeof StrengthRecord>;

export const StrengthRatio = Type.Object({
  code: Type.String(),
  label: Type.String(),
  value: Nullable(Type.Number()),
  sentence: Type.String(),
  /** How far the published figures reach. */
  note: Type.String(),
  source: Type.String(),
});
export type StrengthRatio = Static<typeof StrengthRatio>;

export const StrengthLog = Type.Object({
  athlete_id: Id,
  body_mass_kg: Nullable(Type.Number()),
  records: Type.Array(StrengthRecord),
  ratios: Type.Array(StrengthRatio),
  /** Best single squat a day beside the sprint tests of the series tested most, by date. */
  over_time: Type.Object({
    squat: Type.Array(Type.Object({ date: LocalDate, single_kg: Type.Number() })),
    sprint_title: Type.String(),
    sprints: Type.Array(Type.Object({ date: LocalDate, time_s: Type.Number() })),
  }),
  cautions: Type.Array(Sourced),
});
export type StrengthLog = Static<typeof StrengthLog>;
