import type { Store } from '../../store/store.ts';
import type { FoundSpan } from './capture-thread.ts';

/**
 * Whether a repetition that is found in a capture's logs has been stored from them before: its middle lies in what a stored recording of
 * that capture was cut from.
 */
export function alreadyStored(
  store: Store,
  capture_id: string,
  athlete_id: number,
  { start_s, end_s, utc_zero_ms }: FoundSpan,
): boolean {
  if (utc_zero_ms === null) return false;
  const middle_ms = utc_zero_ms + 500 * (start_s + end_s);
  const recordings = store
    .prepare(
      `SELECT start_utc, duration_s FROM recordings
        WHERE athlete_id = ? AND source = 'radio' AND start_utc IS NOT NULL AND substr(file_name, 1, length(?) + 1) = ? || '-'`,
    )
    .all(athlete_id, capture_id, capture_id) as { start_utc: string; duration_s: number }[];
  return recordings.some(({ start_utc, duration_s }) => {
    const start_ms = Date.parse(start_utc);
    return middle_ms >= start_ms && middle_ms <= start_ms + 1000 * duration_s;
  });
}
