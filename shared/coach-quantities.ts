/**
 * Quantities of a whole repetition that a coach looks at: the mean of a contact field at speed, or one derived here.
 * One dictionary so that every page, sentence and report uses the same words, unit and decimals.
 */
import type { ContactQuantity } from './analysis.ts';
import { CONTACT_FIELDS, type FieldDefinition } from './fields.ts';

/** Derived for a repetition, not for a contact. */
export const DERIVED_FIELDS = {
  contact_time_side_difference_ms: {
    label: 'contact time, left minus right',
    unit: 'ms',
    decimals: 0,
    definition: 'Mean contact time at speed of the left foot minus that of the right.',
    source: 'common practice; shown beside the variation within each side',
  },
  step_time_side_difference_ms: {
    label: 'step time, left minus right',
    unit: 'ms',
    decimals: 0,
    definition: 'Mean step time that starts on the left foot minus that on the right, at speed.',
    source: 'common practice; shown beside the variation within each side',
  },
  acceleration_end_m: {
    label: 'end of acceleration',
    unit: 'm',
    decimals: 1,
    definition: 'Distance from the start at the first contact of the maximum-speed phase.',
    source: 'own definition; common practice expects 15 to 20 yd',
  },
  speed_max_mps: {
    label: 'maximum speed',
    unit: 'm/s',
    decimals: 2,
    definition: 'Greatest speed of the repetition.',
    source: 'common practice',
  },
  time_s: {
    label: 'time',
    unit: 's',
    decimals: 2,
    definition: 'Time over the course, as measured.',
    source: 'common practice',
  },
} satisfies Record<string, FieldDefinition>;

export type DerivedQuantity = keyof typeof DERIVED_FIELDS;
export type CoachQuantity = ContactQuantity | DerivedQuantity;

/**
 * Label, unit, decimals and definition of a quantity.
 * @returns null for a name that is neither a contact field nor derived
 */
export function quantityDefinition(quantity: string): FieldDefinition | null {
  return (
    (DERIVED_FIELDS as Record<string, FieldDefinition>)[quantity] ??
    (CONTACT_FIELDS as Record<string, FieldDefinition>)[quantity] ??
    null
  );
}
