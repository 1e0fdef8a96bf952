import type { Mounting } from '../../shared/words.ts';
import { fillFootShape } from './foot-shape.ts';
import { type TrackedContact, trackFoot } from './foot-track.ts';
import type { MeasuredRepetition, StrideSensor } from './measured-repetition.ts';
import { fillShankAngle } from './shank-angle.ts';
import type { StrideContext } from './stride-context.ts';
import type { Contact } from '../../shared/analysis.ts';

/** What a sensor at one place of the leg measures of a stride, beyond its instants. */
export interface StrideMounting {
  /** Its path from rest to rest; null where it never rests. */
  track(rows: Contact[], sensor: StrideSensor, context: StrideContext): TrackedContact[] | null;
  /** Angles that only this place shows. Rows are changed in place. */
  fillAngles(repetition: MeasuredRepetition, sensor: StrideSensor): void;
  /** Whether the segment turns over the foot on the ground as one stiff bone: then its rotation in contact is told. */
  rotates_over_foot: boolean;
}

/** One object a mounting: another one does not compile here until all of it is said. */
export const STRIDE_MOUNTINGS: Record<Mounting, StrideMounting> = {
  foot: {
    track: (rows, sensor, { settings }) => trackFoot(rows, sensor, settings),
    fillAngles({ feet, context }, sensor) {
      const tracked = feet.find((foot) => foot.sensor === sensor);
      if (tracked) fillFootShape(tracked.contacts, sensor.signals, context.settings);
    },
    rotates_over_foot: false,
  },
  shank: {
    track: () => null,
    fillAngles: ({ rows, context }, sensor) => fillShankAngle(rows, sensor, context),
    rotates_over_foot: true,
  },
};
