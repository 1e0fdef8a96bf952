import { type Static, Type } from 'typebox';

export const LIFTS = [
  'parallel_squat',
  'straight_leg_deadlift',
  'deadlift',
  'bench_press',
  'power_clean',
  'other',
] as const;
export type Lift = (typeof LIFTS)[number];

export const StrengthRecordBody = Type.Object({
  athlete_id: Type.Integer(),
  date: Type.String({ pattern: '^\\d{4}-\\d{2}-\\d{2}$' }),
  lift: Type.Enum([...LIFTS]),
  load_kg: Type.Number({ exclusiveMinimum: 0, maximum: 600 }),
  /** The unit the coach wrote it in; only how it is shown. */
  load_unit: Type.Enum(['kg', 'lb']),
  sets: Type.Integer({ minimum: 1, maximum: 30 }),
  repetitions: Type.Integer({ minimum: 1, maximum: 100 }),
  note: Type.String({ maxLength: 1000, default: '' }),
});
export type StrengthRecordBody = Static<typeof StrengthRecordBody>;

export const StrengthRecord = Type.Intersect([
  Type.Object({ strength_record_id: Type.Integer(), deleted_at: Type.Union([Type.String(), Type.Null()]) }),
  StrengthRecordBody,
]);
export type StrengthRecord = Static<typeof StrengthRecord>;

export const StrengthRatio = Type.Object({
  code: Type.String(),
  label: Type.String(),
  value: Type.Union([Type.Number(), Type.Null()]),
  sentence: Type.String(),
  source: Type.String(),
  beyond: Type.Boolean(),
});
export type StrengthRatio = Static<typeof StrengthRatio>;
