import { type Static, Type } from 'typebox';
import { Id, idsOf, listOf, MOST_ATHLETES, Nullable, UtcInstant, Uuid, wordOf } from './common.ts';

export const SEXES = ['female', 'male', 'other'] as const;

const describedFields = {
  name: Type.String({
    minLength: 1,
    maxLength: 120,
    description: 'Name or pseudonym, as the coach calls the athlete.',
  }),
  sex: Nullable(wordOf(SEXES)),
  birth_date: Nullable(
    Type.String({
      pattern: '^\\d{4}(-\\d{2}-\\d{2})?$',
      maxLength: 10,
      description: 'Year of birth, which is enough for everything worked out here, or the birth date.',
    }),
  ),
  body_mass_kg: Nullable(Type.Number({ minimum: 10, maximum: 300 })),
  stature_m: Nullable(Type.Number({ minimum: 0.5, maximum: 2.6 })),
  leg_length_m: Nullable(Type.Number({ minimum: 0.2, maximum: 1.6 })),
  footwear: Nullable(Type.String({ maxLength: 200 })),
  notes: Type.String({ maxLength: 20_000 }),
};

export const Athlete = Type.Object({
  athlete_id: Id,
  uuid: Uuid,
  ...describedFields,
  group_ids: Type.Array(Id),
  created_utc: UtcInstant,
  updated_utc: UtcInstant,
  deleted_utc: Nullable(UtcInstant),
});
export type Athlete = Static<typeof Athlete>;

export const AthleteChange = Type.Partial(Type.Object({ ...describedFields, group_ids: idsOf(MOST_ATHLETES) }), {
  additionalProperties: false,
});
export type AthleteChange = Static<typeof AthleteChange>;

export const NewAthlete = Type.Object(
  { ...AthleteChange.properties, name: describedFields.name },
  { additionalProperties: false },
);
export type NewAthlete = Static<typeof NewAthlete>;

export const AthleteList = listOf(Athlete);
export type AthleteList = Static<typeof AthleteList>;
