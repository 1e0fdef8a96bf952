import { type Static, Type } from 'typebox';
import { Athlete } from '../athlete.ts';
import { Id, LocalDate, MountingWord, Nullable, wordOf } from '../common.ts';

const measureFields = {
  date: LocalDate,
  body_mass_kg: Nullable(Type.Number({ minimum: 10, maximum: 300 })),
  stature_m: Nullable(Type.Number({ minimum: 0.5, maximum: 2.6 })),
  leg_length_m: Nullable(Type.Number({ minimum: 0.2, maximum: 1.6 })),
};
export const NewAthleteMeasure = Type.Object(measureFields, { additionalProperties: false });
export type NewAthleteMeasure = Static<typeof NewAthleteMeasure>;
export const AthleteMeasure = Type.Object({ athlete_measure_id: Id, athlete_id: Id, ...measureFields });
export type AthleteMeasure = Static<typeof AthleteMeasure>;

export const AthleteSensor = Type.Object(
  {
    side: wordOf(['left', 'right'] as const),
    sensor_name: Type.String({ minLength: 1, maxLength: 120 }),
    mounting: MountingWord,
  },
  { additionalProperties: false },
);
export type AthleteSensor = Static<typeof AthleteSensor>;

/** A technique point an athlete works on, from when to when. */
const pointFields = {
  point: Type.String({ maxLength: 60 }),
  from_date: LocalDate,
  to_date: Nullable(LocalDate),
  note: Type.String({ maxLength: 4000 }),
};
export const NewAthletePoint = Type.Object(
  { ...pointFields, to_date: Type.Optional(pointFields.to_date), note: Type.Optional(pointFields.note) },
  { additionalProperties: false },
);
export type NewAthletePoint = Static<typeof NewAthletePoint>;
export const AthletePointChange = Type.Partial(Type.Object(pointFields), { additionalProperties: false });
export type AthletePointChange = Static<typeof AthletePointChange>;
export const AthletePoint = Type.Object({
  athlete_point_id: Id,
  athlete_id: Id,
  ...pointFields,
  /** Name of the point in the catalogue. */
  name: Type.String(),
  /** Weeks since it began, to its end or today. */
  weeks: Type.Number(),
});
export type AthletePoint = Static<typeof AthletePoint>;

/** Everything an athlete's page shows of the person. */
export const AthleteRecord = Type.Object({
  athlete: Athlete,
  age_years: Nullable(Type.Number()),
  measures: Type.Array(AthleteMeasure),
  sensors: Type.Array(AthleteSensor),
  points: Type.Array(AthletePoint),
  stored: Type.Object({
    sessions: Type.Integer(),
    repetitions: Type.Integer(),
    recordings: Type.Integer(),
    raw_bytes: Type.Integer(),
    sprint_tests: Type.Integer(),
    strength_records: Type.Integer(),
    /** The database file on the machine that runs the server. */
    file: Type.String(),
  }),
});
export type AthleteRecord = Static<typeof AthleteRecord>;

/** One line of the coach's list of athletes. */
export const AthleteLine = Type.Object({
  athlete_id: Id,
  name: Type.String(),
  group_ids: Type.Array(Id),
  points: Type.Array(Type.Object({ point: Type.String(), name: Type.String(), weeks: Type.Number() })),
  last_session_date: Nullable(LocalDate),
  next_test_date: LocalDate,
  test_overdue_days: Type.Integer(),
});
export type AthleteLine = Static<typeof AthleteLine>;
