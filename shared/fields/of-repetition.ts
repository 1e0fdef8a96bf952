import type { RepetitionField } from './field.ts';

/** Quantities of a whole repetition, not of a contact. */
export const REPETITION_FIELDS = {
  contact_time_side_difference_ms: {
    level: 'repetition',
    label: 'contact time, left minus right',
    unit: 'ms',
    decimals: 0,
    definition:
      'Contact time of the left foot minus that of the right, mean over neighbouring steps at speed, so that what changes along the run is no difference of sides.',
    source: 'own definition; reading of side differences after Exell 2017, doi 10.1111/sms.12759',
  },
  step_time_side_difference_ms: {
    level: 'repetition',
    label: 'step time, left minus right',
    unit: 'ms',
    decimals: 0,
    definition:
      'Time of the step that starts on the left foot minus that on the right, mean over neighbouring steps at speed.',
    source: 'own definition; reading of side differences after Exell 2017, doi 10.1111/sms.12759',
  },
  acceleration_end_m: {
    level: 'repetition',
    label: 'end of acceleration',
    unit: 'm',
    decimals: 1,
    definition: 'Distance from the start at the first contact of the maximum-speed phase.',
    source: 'own definition',
  },
  speed_max_mps: {
    level: 'repetition',
    label: 'maximum speed',
    unit: 'm/s',
    decimals: 2,
    definition: 'Greatest speed of the repetition.',
    source: 'common practice',
    figure: 'with uncertainty',
  },
  time_s: {
    level: 'repetition',
    label: 'time',
    unit: 's',
    decimals: 2,
    definition: 'Time over the course, as measured.',
    source: 'common practice',
  },
  contacts_missing: {
    level: 'repetition',
    label: 'contacts missing',
    unit: '1',
    decimals: 0,
    definition: 'Contacts of the recorded feet that were run and not found, by the step times around them.',
    source: 'own definition',
  },
} as const satisfies Record<string, RepetitionField>;
