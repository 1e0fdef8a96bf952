/**
 * Quantities of a whole repetition that a coach looks at: the mean of a contact field at speed, or one of the repetition
 * itself.
 */
import type { ContactQuantity } from './contact.ts';
import { CONTACT_FIELDS, type FieldDefinition, FIGURE_QUANTITIES, REPETITION_FIELDS } from './fields.ts';

export type CoachQuantity = ContactQuantity | keyof typeof REPETITION_FIELDS;

/**
 * Label, unit, decimals and definition of a quantity.
 * @returns null for a name that is neither a contact field nor one of a repetition
 */
export function quantityDefinition(quantity: string): FieldDefinition | null {
  const fields: Record<string, FieldDefinition> = { ...CONTACT_FIELDS, ...REPETITION_FIELDS };
  return Object.hasOwn(fields, quantity) ? fields[quantity] : null;
}

/** Quantities kept as means beside every repetition, so that sessions can be compared. */
export const REPEATABLE_QUANTITIES: readonly string[] = [...FIGURE_QUANTITIES, 'speed_max_mps'];
