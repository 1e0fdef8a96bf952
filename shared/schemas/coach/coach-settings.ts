import { type Static, Type } from 'typebox';
import { Nullable } from '../common.ts';
import { PlanLimits } from './plan.ts';

/** When to think of stopping an athlete's session. Each part can be off. */
export const StopRule = Type.Object(
  {
    /** Repetitions in a row beyond normal in contact time or the focus's quantity. */
    beyond_in_a_row: Nullable(Type.Integer({ minimum: 1, maximum: 20 })),
    /** Loss of speed (or time) against the day's best at the same effort and course. */
    speed_loss_percent: Nullable(Type.Number({ minimum: 0.5, maximum: 50 })),
  },
  { additionalProperties: false },
);
export type StopRule = Static<typeof StopRule>;

export const CoachSettings = Type.Object(
  { plan_limits: PlanLimits, stop_rule: StopRule },
  { additionalProperties: false },
);
export type CoachSettings = Static<typeof CoachSettings>;
