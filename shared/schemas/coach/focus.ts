import { type Static, Type } from 'typebox';
import { MountingWord, Nullable, wordOf } from '../common.ts';

/** Which way coaches usually want the number to go. */
export const AIMS = ['lower', 'higher', 'nearer zero', 'no fixed direction'] as const;
export type Aim = (typeof AIMS)[number];

/** One number a focus rests on. */
export const FocusQuantity = Type.Object({
  /** A field of shared/fields.ts, or one derived for a whole repetition (shared/coach-quantities.ts). */
  quantity: Type.String(),
  aim: wordOf(AIMS),
  /** Where the sensor must sit for this number; null when either will do. */
  mounting: Nullable(MountingWord),
});
export type FocusQuantity = Static<typeof FocusQuantity>;

export const Focus = Type.Object({
  key: Type.String(),
  name: Type.String(),
  meaning: Type.String(),
  /** The first is the one shown between repetitions. */
  quantities: Type.Array(FocusQuantity),
  coaches_try: Type.Array(Type.String()),
  sensor_cannot_see: Type.String(),
  source: Type.String(),
});
export type Focus = Static<typeof Focus>;
