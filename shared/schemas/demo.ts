import { type Static, Type } from 'typebox';
import { Nullable } from './common.ts';

/** Whether what is shown is invented, and how far it is loaded. */
export const DemoState = Type.Object({
  /** True while the demo's club is among the groups. */
  invented: Type.Boolean(),
  /** Repetitions that are loaded, and how many there will be; null when nothing is being loaded. */
  loading: Nullable(Type.Object({ done: Type.Integer(), total: Type.Integer() })),
});
export type DemoState = Static<typeof DemoState>;
