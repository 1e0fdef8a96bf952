import { type Static, Type } from 'typebox';
import { Id, listOf, Nullable, UtcInstant } from './common.ts';
import { Layout } from './layout.ts';

const name = Type.String({ minLength: 1, maxLength: 120 });

/** A layout kept under a name: the next file of the same shape (`layout.fingerprint`) is read with it. */
export const SavedLayout = Type.Object({
  layout_id: Id,
  name,
  layout: Layout,
  created_utc: UtcInstant,
  updated_utc: UtcInstant,
  deleted_utc: Nullable(UtcInstant),
});
export type SavedLayout = Static<typeof SavedLayout>;

export const NewSavedLayout = Type.Object({ name, layout: Layout }, { additionalProperties: false });
export type NewSavedLayout = Static<typeof NewSavedLayout>;

export const SavedLayoutChange = Type.Partial(NewSavedLayout, { additionalProperties: false });
export type SavedLayoutChange = Static<typeof SavedLayoutChange>;

export const SavedLayoutList = listOf(SavedLayout);
