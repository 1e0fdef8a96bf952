/**
 * How times and wind are read and written. Source of the rules: World Athletics technical rules on timing and wind
 * (TR19, formerly rule 165; in part from memory), as worked examples in the tests.
 */
import type { TimingMethod } from '../../../shared/words.ts';
import { FaultError } from '../../../shared/fault.ts';

/** Hides the last bits of binary arithmetic before rounding up, so that 10.2 stays 10.2. */
const EXACT = 1e-6;

function nextLonger(value: number, step: number): number {
  const steps = Math.ceil(value / step - EXACT);
  return Number((steps * step).toFixed(3));
}

/** Hand times on the track: unless exact, the next longer tenth (10.11 becomes 10.2). */
export function officialHandTime(time_s: number): number {
  return nextLonger(time_s, 0.1);
}

/** Photo-finish times to 10 000 m: unless exact, the next longer hundredth. */
export function officialElectronicTime(time_s: number): number {
  return nextLonger(time_s, 0.01);
}

/** Wind: the next higher tenth in the positive direction (+2.03 becomes +2.1, -2.03 becomes -2.0). */
export function officialWind(wind_mps: number): number {
  const rounded = Math.ceil(wind_mps * 10 - EXACT) / 10;
  return rounded === 0 ? 0 : rounded;
}

/**
 * The time that counts when several people timed by hand.
 * @param watches_s one to three readings
 * @returns the one reading, the longer of two, the middle of three (two that agree are always the middle)
 * @throws FaultError WATCH_COUNT for none or more than three
 */
export function timeOfWatches(watches_s: readonly number[]): number {
  const sorted = [...watches_s].sort((a, b) => a - b);
  if (sorted.length === 1) return sorted[0];
  if (sorted.length === 2) return sorted[1];
  if (sorted.length === 3) return sorted[1];
  throw new FaultError({
    code: 'WATCH_COUNT',
    message: `watches_s holds ${sorted.length} readings; one, two or three are allowed. Nothing was stored.`,
    where: { field: 'watches_s', value: sorted.length },
    hint: 'Enter the readings of at most three watches.',
  });
}

/**
 * Track allowance from a hand time to an electronic one: +0.24 s for 100 and 200 m, +0.14 s for 400 m, on the time
 * already rounded to the tenth. It holds for gun starts on the track only.
 * @returns null for every other distance: no single constant fits a 40 yd dash, so the method is stored and never mixed
 */
export function electronicEquivalent(hand_time_s: number, distance_m: number): number | null {
  const allowance = distance_m === 100 || distance_m === 200 ? 0.24 : distance_m === 400 ? 0.14 : null;
  return allowance === null ? null : Number((officialHandTime(hand_time_s) + allowance).toFixed(2));
}

export function isHandTime(method: TimingMethod): boolean {
  return method === 'hand';
}

/** Wind above which a mark does not stand as a record; said beside the time, nothing is corrected. */
export const RECORD_WIND_LIMIT_MPS = 2.0;
