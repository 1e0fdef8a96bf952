import type { Reason } from '../../shared/reason.ts';
import type { Contact } from '../../shared/analysis.ts';
import type { TrackedContact } from './foot-track.ts';
import type { TimedCurve } from './speed-from-timing.ts';
import type { StrideContext } from './stride-context.ts';

export type StrideSensor = StrideContext['sensors'][number];

/** One repetition with instants, step times, speed, step length and distance filled in. */
export interface MeasuredRepetition {
  /** Contacts in time order; quantities are filled in in place. */
  rows: Contact[];
  /** Sensors whose axes are doubtful are left out. */
  context: StrideContext;
  /** The path of each foot that carries a sensor. */
  feet: TrackedFoot[];
  /** The acceleration curve; null where there is none. */
  curve: TimedCurve | null;
  /** Field name -> why it is empty for the whole repetition; added to in place. */
  reasons: Record<string, Reason>;
}

export interface TrackedFoot {
  sensor: StrideSensor;
  contacts: TrackedContact[];
}
