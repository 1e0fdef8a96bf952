import type { FieldDefinition } from '../../shared/fields.ts';
import { niceTicks } from '../../shared/nice-ticks.ts';
import type { FigureAxis } from './figure.ts';

/** The axis of a quantity's values, in its own unit: a little more than they reach. */
export function valueAxis(
  { label, unit }: Pick<FieldDefinition, 'label' | 'unit'>,
  [least, greatest]: [number, number],
): FigureAxis {
  const room = 0.08 * (greatest - least || 1);
  const [low, high] = [least - room, greatest + room];
  return { label: unit === '1' ? label : `${label}, ${unit}`, low, high, ticks: niceTicks(low, high, 5) };
}
