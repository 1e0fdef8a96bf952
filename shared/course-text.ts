import { FaultError, fault } from './fault.ts';
import { METRES_PER_FOOT, METRES_PER_YARD } from './units.ts';

/** A quantity with its unit is short; what is longer is none, and is not searched to its end. */
const LONGEST = 40;

const FACTORS: Record<string, number> = { m: 1, km: 1000, yd: METRES_PER_YARD, ft: METRES_PER_FOOT };

/**
 * Reads a distance with its unit, as people write it: `40yd`, `36.576 m`, `60m`.
 * @returns metres
 * @throws FaultError DISTANCE_UNREADABLE when number or unit is missing
 */
export function parseDistance(text: string): number {
  const match = /^([0-9]+(?:\.[0-9]+)?|\.[0-9]+)\s*(km|m|yd|ft)$/i.exec(text.slice(0, LONGEST).trim());
  const metres = match ? Number(match[1]) * FACTORS[match[2].toLowerCase()] : Number.NaN;
  if (!(metres > 0)) {
    throw new FaultError(fault('DISTANCE_UNREADABLE', { text }, { value: text }));
  }
  return metres;
}
