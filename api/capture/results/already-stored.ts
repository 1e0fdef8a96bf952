import type { Store } from '../../store/store.ts';
import type { Mounting, Side } from '../../../shared/words.ts';
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

/** A sensor's calendar is told to the second, and then runs on by its own clock. */
const CALENDAR_S = 2;

/** A repetition that was measured by radio, while the sensors recorded the same run into their own memories. */
export interface MeasuredByRadio {
  repetition_id: number;
  sides: Side[];
  /** True where not a sample is missing. */
  whole: boolean;
}

/**
 * The stored repetition of the same run, of other packets than those that were found: what was sent and what was fetched are one run, and
 * count once.
 * @returns null when there is none
 */
export function measuredByRadio(
  store: Store,
  { athlete_id, mounting }: { athlete_id: number; mounting: Mounting },
  { start_s, end_s, utc_zero_ms }: FoundSpan,
): MeasuredByRadio | null {
  if (utc_zero_ms === null) return null;
  const middle_s = utc_zero_ms / 1000 + (start_s + end_s) / 2;
  const rows = store
    .prepare(
      `SELECT repetition_id, side, gaps FROM recordings
         JOIN repetition_recordings USING (recording_id) JOIN repetitions USING (repetition_id)
        WHERE recordings.athlete_id = ? AND source = 'radio' AND mounting = ? AND repetitions.deleted_utc IS NULL
          AND unixepoch(start_utc) - :slack <= :middle AND unixepoch(start_utc) + duration_s + :slack >= :middle
        ORDER BY repetition_id`,
    )
    .all(athlete_id, mounting, { slack: CALENDAR_S, middle: middle_s }) as {
    repetition_id: number;
    side: Side;
    gaps: string;
  }[];
  const own = rows.filter(({ repetition_id }) => repetition_id === rows[0].repetition_id);
  if (own.length === 0) return null;
  return {
    repetition_id: own[0].repetition_id,
    sides: own.map(({ side }) => side),
    whole: own.every(({ gaps }) => gaps === '[]'),
  };
}
