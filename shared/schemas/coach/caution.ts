import { type Static, Type } from 'typebox';

/** A statement with the place it comes from; 'common practice' where the trade has no single source. */
export const Sourced = Type.Object({
  code: Type.String(),
  text: Type.String(),
  source: Type.String(),
});
export type Sourced = Static<typeof Sourced>;
