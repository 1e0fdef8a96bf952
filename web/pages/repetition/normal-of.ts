import type { ProfileBaseline } from '../../../shared/schemas/repetition.ts';
import type { NormalRange } from '../../parts/figure-tile.tsx';

/** Normal range of a repetition's mean at speed; null where the baseline does not have it. */
export function normalOf(baseline: ProfileBaseline | null, quantity: string): NormalRange | null {
  return baseline?.at_speed?.[quantity] ?? null;
}
