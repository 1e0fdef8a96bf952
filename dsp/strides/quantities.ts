import { because } from '../../shared/reason.ts';
import type { MeasuredRepetition } from './measured-repetition.ts';
import { STRIDE_MOUNTINGS } from './mountings.ts';
import { fillStiffness, legLength } from './stiffness.ts';
import { fillStrideLengths } from './stride-lengths.ts';
import { fillSwingShape } from './swing-shape.ts';

/**
 * Quantities filled in beyond times, speed and distance, in this order; each rests only on those before it. A quantity
 * that is added gets a file of its own and a line here (see 'Add a quantity' in DEVELOPERS.md).
 */
export const QUANTITIES: readonly ((repetition: MeasuredRepetition) => void)[] = [
  strideLengths,
  swingShape,
  anglesOfPlace,
  stiffness,
];

function strideLengths({ rows, feet, curve, context }: MeasuredRepetition): void {
  const tracked = feet.flatMap(({ contacts }) => contacts);
  fillStrideLengths(rows, tracked, curve, context.course, context.settings);
}

function swingShape({ rows, context }: MeasuredRepetition): void {
  for (const sensor of context.sensors) {
    const { rotates_over_foot } = STRIDE_MOUNTINGS[sensor.recording.mounting];
    fillSwingShape(rows, sensor, context.settings, rotates_over_foot);
  }
}

function anglesOfPlace(repetition: MeasuredRepetition): void {
  for (const sensor of repetition.context.sensors) {
    STRIDE_MOUNTINGS[sensor.recording.mounting].fillAngles(repetition, sensor);
  }
}

function stiffness({ rows, context: { conditions, settings }, reasons }: MeasuredRepetition): void {
  const { body_mass_kg } = conditions;
  const leg = legLength(conditions, settings);
  fillStiffness(rows, body_mass_kg, leg, settings);
  if (body_mass_kg === null) reasons.vertical_stiffness_kn_per_m = because('body_mass_unknown');
  if (body_mass_kg === null || leg === null) reasons.leg_stiffness_kn_per_m = because('body_mass_or_leg_unknown');
}
