import type { FieldAthlete } from '../../../../shared/schemas/coach/field-view.ts';

/** A repetition that ended longer ago belongs to another evening: no rest is counted from it. */
const LONGEST_MS = 60 * 60 * 1000;

/**
 * How long an athlete has rested.
 * @param now_ms the server's clock
 * @returns milliseconds; null where nothing counts
 */
export function restedMs({ latest }: Pick<FieldAthlete, 'latest'>, now_ms: number): number | null {
  if (!latest) return null;
  const rested_ms = now_ms - Date.parse(latest.rest_from_utc);
  // A clock that is a little off must not hide a rest that has just begun.
  return rested_ms < LONGEST_MS && rested_ms > -LONGEST_MS ? Math.max(0, rested_ms) : null;
}

/** `2:41`. */
export function minutesText(ms: number): string {
  const seconds = Math.floor(ms / 1000);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}
