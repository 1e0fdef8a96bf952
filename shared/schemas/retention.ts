import { type Static, Type } from 'typebox';
import { Id, LocalDate, listOf, Nullable, UtcInstant } from './common.ts';

/** An athlete who has not run for a year, and for whom it was not said within a year that the data are still needed. */
export const RetentionQuestion = Type.Object({
  athlete_id: Id,
  name: Type.String(),
  /** Day of the last session with a repetition; null where there is none. */
  last_session_date: Nullable(LocalDate),
  /** When it was last said that the data are kept; null: never. */
  kept_utc: Nullable(UtcInstant),
  /** True for an athlete who was deleted, but whose data are all still there. */
  deleted: Type.Boolean(),
});
export type RetentionQuestion = Static<typeof RetentionQuestion>;
export const RetentionQuestionList = listOf(RetentionQuestion);

export const KeepBody = Type.Object(
  { reason: Type.Optional(Type.String({ maxLength: 400 })) },
  { additionalProperties: false },
);
