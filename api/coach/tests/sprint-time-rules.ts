/**
 * How times taken by hand are read. Source: World Athletics technical rules on timing (TR19, formerly rule 165; in part
 * from memory), as worked examples in the tests. A hand time is never turned into an electronic one.
 */
import type { TimingMethod } from '../../../shared/words.ts';
import { FaultError, fault } from '../../../shared/fault.ts';

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
  throw new FaultError(fault('WATCH_COUNT', { count: sorted.length }, { field: 'watches_s', value: sorted.length }));
}

export function isHandTime(method: TimingMethod): boolean {
  return method === 'hand';
}
