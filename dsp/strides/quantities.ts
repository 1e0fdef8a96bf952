import type { Contact } from '../../shared/analysis.ts';
import { fillFootShape } from './foot-shape.ts';
import type { TrackedContact } from './foot-track.ts';
import { fillShankAngle } from './shank-angle.ts';
import type { TimedCurve } from './speed-from-timing.ts';
import { fillStiffness, legLength } from './stiffness.ts';
import type { StrideContext } from './stride-context.ts';
import { fillStrideLengths } from './stride-lengths.ts';
import { fillSwingShape } from './swing-shape.ts';

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
  reasons: Record<string, string>;
}

export interface TrackedFoot {
  sensor: StrideSensor;
  contacts: TrackedContact[];
}

/**
 * Quantities filled in beyond times, speed and distance, in this order; each rests only on those before it. A quantity
 * that is added gets a file of its own and a line here (see 'Add a quantity' in DEVELOPERS.md).
 */
export const QUANTITIES: readonly ((repetition: MeasuredRepetition) => void)[] = [
  strideLengths,
  footShape,
  swingShape,
  shankAngle,
  stiffness,
];

function strideLengths({ rows, feet, curve, context }: MeasuredRepetition): void {
  const tracked = feet.flatMap(({ contacts }) => contacts);
  fillStrideLengths(rows, tracked, curve, context.course, context.settings);
}

function footShape({ feet, context }: MeasuredRepetition): void {
  for (const { sensor, contacts } of feet) fillFootShape(contacts, sensor.signals, context.settings);
}

function swingShape({ rows, context }: MeasuredRepetition): void {
  for (const sensor of context.sensors) fillSwingShape(rows, sensor, context.settings);
}

function shankAngle({ rows, context }: MeasuredRepetition): void {
  for (const sensor of context.sensors) {
    if (sensor.recording.mounting === 'shank') fillShankAngle(rows, sensor, context);
  }
}

function stiffness({ rows, context: { conditions, settings }, reasons }: MeasuredRepetition): void {
  const { body_mass_kg } = conditions;
  const leg = legLength(conditions, settings);
  fillStiffness(rows, body_mass_kg, leg, settings);
  if (body_mass_kg === null) reasons.vertical_stiffness_kn_per_m = 'body mass unknown';
  if (body_mass_kg === null || leg === null) reasons.leg_stiffness_kn_per_m = 'body mass or leg length unknown';
}
