import { readPacketLog, utcOfHostZero } from '../../../ingest/ble/assembly/read-packet-log.ts';
import type { Store } from '../../store/store.ts';
import type { LiveRepetition } from './store-repetition.ts';

/**
 * Whether a repetition that is found in a capture's logs has been stored from them before: its middle lies in what a stored recording of
 * that capture was cut from.
 */
export function alreadyStored(store: Store, capture_id: string, live: LiveRepetition): boolean {
  const [first] = live.excerpts;
  const zero_ms = first === undefined ? null : utcOfHostZero(readPacketLog(first.file_name, first.bytes));
  if (zero_ms === null) return false;
  const middle_ms = zero_ms + 500 * (live.start_s + live.end_s);
  const recordings = store
    .prepare(
      `SELECT start_utc, duration_s FROM recordings
        WHERE athlete_id = ? AND source = 'radio' AND start_utc IS NOT NULL AND substr(file_name, 1, length(?) + 1) = ? || '-'`,
    )
    .all(live.athlete_id, capture_id, capture_id) as { start_utc: string; duration_s: number }[];
  return recordings.some(({ start_utc, duration_s }) => {
    const start_ms = Date.parse(start_utc);
    return middle_ms >= start_ms && middle_ms <= start_ms + 1000 * duration_s;
  });
}
