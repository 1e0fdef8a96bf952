import { type Static, Type } from 'typebox';
import { UtcInstant } from '../common.ts';

/** What is left to do by hand after a person was erased. Backups made before hold the person still. */
export const EraseReceipt = Type.Object({
  erased_utc: UtcInstant,
  /** Texts of others in which the name stands: notes on sessions, titles. */
  still_named_in: Type.Array(Type.Object({ table: Type.String(), column: Type.String(), rows: Type.Integer() })),
  /** Research exports, made earlier, that held this person under a pseudonym. */
  exports: Type.Integer(),
});
export type EraseReceipt = Static<typeof EraseReceipt>;
