import type { ContactField } from './field.ts';

/** Force and stiffness by models of steady running. */
export const FORCE_FIELDS = {
  vertical_force_bw: {
    level: 'contact',
    kind: 'quantity',
    label: 'mean vertical force',
    unit: 'BW',
    decimals: 2,
    definition:
      'Mean vertical ground force during contact over body weight: (contact time + flight time) / contact time.',
    source: 'identity of steady running',
    u: true,
    shared_error: true,
  },
  vertical_stiffness_kn_per_m: {
    level: 'contact',
    kind: 'quantity',
    label: 'vertical stiffness',
    unit: 'kN/m',
    decimals: 1,
    definition: 'Peak force over lowering of the body, sine-wave force model.',
    source: 'Morin et al. 2005, J Appl Biomech 21:167-180',
    u: true,
    shared_error: true,
  },
  leg_stiffness_kn_per_m: {
    level: 'contact',
    kind: 'quantity',
    label: 'leg stiffness',
    unit: 'kN/m',
    decimals: 1,
    definition: 'Peak force over shortening of the leg, sine-wave force model.',
    source: 'Morin et al. 2005, J Appl Biomech 21:167-180',
    u: true,
    shared_error: true,
  },
} as const satisfies Record<string, ContactField>;
