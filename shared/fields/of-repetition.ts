import type { RepetitionField } from './field.ts';

/** Quantities of a whole repetition, not of a contact. */
export const REPETITION_FIELDS = {
  contact_time_side_difference_ms: {
    level: 'repetition',
    label: 'contact time, left minus right',
    unit: 'ms',
    decimals: 0,
    definition: 'Mean contact time at speed of the left foot minus that of the right.',
    source: 'common practice; shown beside the variation within each side',
  },
  step_time_side_difference_ms: {
    level: 'repetition',
    label: 'step time, left minus right',
    unit: 'ms',
    decimals: 0,
    definition: 'Mean step time that starts on the left foot minus that on the right, at speed.',
    source: 'common practice; shown beside the variation within each side',
  },
  acceleration_end_m: {
    level: 'repetition',
    label: 'end of acceleration',
    unit: 'm',
    decimals: 1,
    definition: 'Distance from the start at the first contact of the maximum-speed phase.',
    source: 'own definition; common practice expects 15 to 20 yd',
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
} as const satisfies Record<string, RepetitionField>;
