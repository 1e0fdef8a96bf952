import type { ContactQuantity } from '../../../shared/analysis.ts';
import { FURTHER_QUANTITIES, PROFILE_QUANTITIES } from '../../../shared/fields.ts';

/** Columns of the table beside the profile. */
export const TABLE_QUANTITIES = [...PROFILE_QUANTITIES, 'distance_m'] as const satisfies readonly ContactQuantity[];

/** More of each contact, shown on request: instants, angles, forces, swing. */
export const DETAIL_QUANTITIES: readonly ContactQuantity[] = [
  'touchdown_s',
  'toe_off_s',
  'swing_time_ms',
  'duty_factor',
  ...FURTHER_QUANTITIES.filter((quantity) => quantity !== 'stride_time_ms'),
];
