import { quantityDefinition } from '../../../shared/coach-quantities.ts';
import { METRES_PER_YARD } from '../../../shared/units.ts';
import { type Display, displayField, formatCourse, formatNumber } from '../../app/format.ts';

/** Label, unit, decimals and factor of a coach's quantity, in the user's units. */
export function displayQuantity(quantity: string): Display {
  return displayField(
    quantityDefinition(quantity) ?? {
      label: quantity.replaceAll('_', ' '),
      unit: '1',
      decimals: 2,
      definition: '',
      source: '',
    },
  );
}

/** The number alone, in the user's units. */
export function showValue(quantity: string, value: number | null | undefined): string {
  const { decimals, factor } = displayQuantity(quantity);
  return value === null || value === undefined ? '–' : formatNumber(value * factor, decimals);
}

/** Number and unit. */
export function showQuantity(quantity: string, value: number | null | undefined): string {
  const { unit } = displayQuantity(quantity);
  const shownUnit = unit === 'deg' ? '°' : unit ? ` ${unit}` : '';
  return value === null || value === undefined ? '–' : `${showValue(quantity, value)}${shownUnit}`;
}

/** A course as it was laid out. Lists group courses to 0.1 m; one of whole yards is said in whole yards. */
export function courseText(metres: number): string {
  const yards = Math.round(metres / METRES_PER_YARD);
  const isYards = Math.abs(yards * METRES_PER_YARD - metres) < 0.06;
  return formatCourse(isYards ? yards * METRES_PER_YARD : metres);
}
