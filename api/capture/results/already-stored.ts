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
/** Runs that began so much earlier or later need not be looked at, seconds. */
const NEAR_S = 3600;

/** A repetition that was measured by radio, while the sensors recorded the same run into their own memories. */
export interface MeasuredByRadio {
  repetition_id: number;
  sides: Side[];
  /** True where not a sample is missing. */
  whole: boolean;
}

/**
 * The stored repetitions of the same run, of other packets than those that were found: what was sent and what was fetched are one run, and
 * count once. A break of the link may have parted it into several.
 */
export function measuredByRadio(
  store: Store,
  { athlete_id, mounting }: { athlete_id: number; mounting: Mounting },
  { start_s, end_s, utc_zero_ms }: FoundSpan,
): MeasuredByRadio[] {
  if (utc_zero_ms === null) return [];
  const [from_s, to_s] = [start_s, end_s].map((at_s) => utc_zero_ms / 1000 + at_s);
  const utc = (at_s: number) => new Date(1000 * at_s).toISOString();
  const rows = store
    .prepare(
      `SELECT repetitions.repetition_id, recorded_utc, side, gaps,
              json_extract(result, '$.start_s') AS start_s, json_extract(result, '$.end_s') AS end_s
         FROM repetitions
         JOIN analyses ON analyses.analysis_id = repetitions.analysis_id
         JOIN repetition_recordings ON repetition_recordings.repetition_id = repetitions.repetition_id
         JOIN recordings USING (recording_id)
        WHERE repetitions.athlete_id = ? AND repetitions.deleted_utc IS NULL AND source = 'radio' AND mounting = ?
          AND recorded_utc BETWEEN ? AND ?
        ORDER BY recorded_utc, repetitions.repetition_id`,
    )
    .all(athlete_id, mounting, utc(from_s - NEAR_S), utc(to_s + NEAR_S)) as {
    repetition_id: number;
    recorded_utc: string;
    side: Side;
    gaps: string;
    start_s: number;
    end_s: number;
  }[];
  const same = rows.filter((row) => {
    const zero_s = Date.parse(row.recorded_utc) / 1000;
    const shared_s =
      Math.min(to_s + CALENDAR_S, zero_s + row.end_s) - Math.max(from_s - CALENDAR_S, zero_s + row.start_s);
    return shared_s > (row.end_s - row.start_s) / 2;
  });
  return [...new Set(same.map(({ repetition_id }) => repetition_id))].map((repetition_id) => {
    const own = same.filter((row) => row.repetition_id === repetition_id);
    return { repetition_id, sides: own.map(({ side }) => side), whole: own.every(({ gaps }) => gaps === '[]') };
  });
}
