import { AIMS } from '../../coach-words.ts';
import { type Static, Type } from 'typebox';
import { Id, MountingWord, Nullable, wordOf } from '../common.ts';

/** One number a focus rests on. */
export const FocusQuantity = Type.Object(
  {
    /** A field of shared/fields.ts, or one derived for a whole repetition (shared/coach-quantities.ts). */
    quantity: Type.String({ maxLength: 80 }),
    aim: wordOf(AIMS),
    /** Where the sensor must sit for this number; null when either will do. */
    mounting: Nullable(MountingWord),
    /** The value that the coach wants to see, in the quantity's own unit; null without one. */
    target: Nullable(Type.Number({ minimum: -1e6, maximum: 1e6 })),
  },
  { additionalProperties: false },
);
export type FocusQuantity = Static<typeof FocusQuantity>;

/** The one thing an athlete works on: from the list, with its source, or the coach's own. */
export const Focus = Type.Object({
  key: Type.String(),
  name: Type.String(),
  meaning: Type.String(),
  /** The first is the one shown between repetitions; empty for what only the eye sees. */
  quantities: Type.Array(FocusQuantity),
  /** The coach's own words to the athlete; empty when none were written. */
  cue: Type.String(),
  sensor_cannot_see: Type.String(),
  /** Where the list has it from; empty for the coach's own. */
  source: Type.String(),
  /** Identifier of the coach's own; null for the list's. */
  coach_focus_id: Nullable(Id),
});
export type Focus = Static<typeof Focus>;

const ownFields = {
  name: Type.String({ minLength: 1, maxLength: 60 }),
  meaning: Type.String({ maxLength: 1000 }),
  cue: Type.String({ maxLength: 200 }),
  quantities: Type.Array(FocusQuantity, { maxItems: 3 }),
};
export const NewCoachFocus = Type.Object(
  { ...ownFields, meaning: Type.Optional(ownFields.meaning), cue: Type.Optional(ownFields.cue) },
  { additionalProperties: false },
);
export type NewCoachFocus = Static<typeof NewCoachFocus>;
export const CoachFocusChange = Type.Partial(Type.Object(ownFields), { additionalProperties: false });
export type CoachFocusChange = Static<typeof CoachFocusChange>;
