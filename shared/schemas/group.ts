import { type Static, Type } from 'typebox';
import { Id, idsOf, listOf, MOST_ATHLETES, Nullable, UtcInstant } from './common.ts';

const describedFields = {
  name: Type.String({ minLength: 1, maxLength: 120 }),
  notes: Type.String({ maxLength: 20_000 }),
};

export const Group = Type.Object({
  group_id: Id,
  ...describedFields,
  athlete_ids: Type.Array(Id, { description: 'Members, in running order.' }),
  created_utc: UtcInstant,
  updated_utc: UtcInstant,
  deleted_utc: Nullable(UtcInstant),
});
export type Group = Static<typeof Group>;

export const GroupChange = Type.Partial(Type.Object({ ...describedFields, athlete_ids: idsOf(MOST_ATHLETES) }), {
  additionalProperties: false,
});
export type GroupChange = Static<typeof GroupChange>;

export const NewGroup = Type.Object(
  { ...GroupChange.properties, name: describedFields.name },
  { additionalProperties: false },
);
export type NewGroup = Static<typeof NewGroup>;

export const GroupList = listOf(Group);
export type GroupList = Static<typeof GroupList>;
