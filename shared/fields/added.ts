import type { ContactField } from './field.ts';

/**
 * Quantities that came after the columns of the files were fixed. A new one goes to the end of this dictionary, whatever
 * it is about: files only grow at their end.
 */
export const ADDED_FIELDS = {
  contact_time_repeatable_ms: {
    level: 'contact',
    kind: 'quantity',
    label: 'repeatable error of contact time',
    unit: 'ms',
    decimals: 1,
    definition:
      'The part of contact_time_ms_u that changes from contact to contact of one foot. The rest is the same for all contacts of a ' +
      'foot on one sensor: it drops out of a change within an athlete.',
    source: 'errors of left-out runners on force plates, parted into between and within feet',
    u: false,
  },
} as const satisfies Record<string, ContactField>;

/** Uncertainties of older quantities that came later still: each stands behind the added quantity that was the last one then. */
export const LATE_UNCERTAINTIES: Readonly<Record<string, readonly string[]>> = {
  contact_time_repeatable_ms: ['contact_length_m_u', 'peak_swing_rate_dps_u', 'peak_contact_rate_dps_u'],
};
