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
/** An athlete's sensors, one or two a side (foot and shank). */
export const AthleteSensors = Type.Object(
  { items: Type.Array(AthleteSensor, { maxItems: 20 }) },
  { additionalProperties: false },
);

/** A focus an athlete works on, from when to when. */
const focusFields = {
  focus: Type.String({ maxLength: 60 }),
  from_date: LocalDate,
  to_date: Nullable(LocalDate),
  note: Type.String({ maxLength: 4000 }),
  /** The coach's words to this athlete; they come before those of the focus. */
  cue: Type.String({ maxLength: 200 }),
};
export const NewAthleteFocus = Type.Object(
  {
    ...focusFields,
    to_date: Type.Optional(focusFields.to_date),
    note: Type.Optional(focusFields.note),
    cue: Type.Optional(focusFields.cue),
  },
  { additionalProperties: false },
);
export type NewAthleteFocus = Static<typeof NewAthleteFocus>;
export const AthleteFocusChange = Type.Partial(Type.Object(focusFields), { additionalProperties: false });
export type AthleteFocusChange = Static<typeof AthleteFocusChange>;
export const AthleteFocus = Type.Object({
  athlete_focus_id: Id,
  athlete_id: Id,
  ...focusFields,
  /** Name of the focus in the catalogue. */
  name: Type.String(),
  /** Weeks since it began, to its end or today. */
  weeks: Type.Number(),
});
export type AthleteFocus = Static<typeof AthleteFocus>;

/** An athlete who is returning from an injury: no comparison that pushes. */
export const Returning = Type.Object(
  { since_date: LocalDate, note: Type.String({ maxLength: 1000 }) },
  { additionalProperties: false },
);
export type Returning = Static<typeof Returning>;

/** Everything an athlete's page shows of the person. */
export const AthleteRecord = Type.Object({
  athlete: Athlete,
  age_years: Nullable(Type.Number()),
  measures: Type.Array(AthleteMeasure),
  sensors: Type.Array(AthleteSensor),
  focuses: Type.Array(AthleteFocus),
  /** Since when the athlete is returning from an injury; null when not. */
  returning: Nullable(Returning),
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
  focuses: Type.Array(Type.Object({ focus: Type.String(), name: Type.String(), weeks: Type.Number() })),
  returning: Type.Boolean(),
  last_session_date: Nullable(LocalDate),
  next_test_date: Nullable(LocalDate),
  test_overdue_days: Type.Integer(),
});
export type AthleteLine = Static<typeof AthleteLine>;
