import type { ContactField } from './field.ts';

/** The stride of one foot, and the way during its contact. */
export const STRIDE_FIELDS = {
  duty_factor: {
    level: 'contact',
    kind: 'quantity',
    label: 'duty factor',
    unit: '1',
    decimals: 3,
    definition: 'Contact time / stride time of the same foot.',
    source: 'common practice',
    u: true,
    shown: 'step',
    figure: 'alone',
    least_span: 0.06,
  },
  stride_time_ms: {
    level: 'contact',
    kind: 'quantity',
    label: 'stride time',
    unit: 'ms',
    decimals: 0,
    definition: "The same foot's next touchdown minus this touchdown.",
    source: 'common practice',
    u: true,
  },
  stride_length_m: {
    level: 'contact',
    kind: 'quantity',
    label: 'stride length',
    unit: 'm',
    decimals: 2,
    definition: "Distance the foot travels from this contact to the same foot's next contact.",
    source: 'common practice',
    u: true,
    shared_error: true,
    step_sized: true,
  },
  contact_length_m: {
    level: 'contact',
    kind: 'quantity',
    label: 'contact length',
    unit: 'm',
    decimals: 2,
    definition: 'Distance the body travels during the contact: speed times contact time.',
    // Cited from memory.
    source: 'Weyand et al. 2000, J Appl Physiol 89:1991-1999',
    u: true,
    step_sized: true,
  },
} as const satisfies Record<string, ContactField>;
