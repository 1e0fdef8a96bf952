import { renameSync } from 'node:fs';
import type { CaptureFolder, CaptureRecord, FetchedRecording } from '../recording/capture-folder.ts';
import { joinInThread } from '../results/capture-thread.ts';

/** Recordings of one run overlap by at least this share of the shorter one, calendars a second off allowed for. */
const LEAST_OVERLAP = 0.5;
const CALENDAR_S = 2;

/** Unread recordings of one athlete's left and right, which can only be of the same run. */
export function pairsOf(records: CaptureRecord[]): [left: CaptureRecord, right: CaptureRecord][] {
  const of = (side: 'left' | 'right') => records.filter((record) => placeOf(record).side === side);
  const [left, right] = [of('left'), of('right')];
  const known = left.flatMap((one): [CaptureRecord, CaptureRecord][] => {
    const others = right.filter((other) => overlap(recordingOf(one), recordingOf(other)));
    return others.length === 1 ? [[one, others[0]]] : [];
  });
  if (known.length > 0) return known;
  // Sensors that do not know the day: one of each can only belong together, or the steps will not fit.
  const untold = (record: CaptureRecord) => recordingOf(record).start_s === null;
  return left.length === 1 && right.length === 1 && (untold(left[0]) || untold(right[0])) ? [[left[0], right[0]]] : [];
}

/**
 * Makes one capture of two, on one clock. Killed in between, both are still there and can be joined anew.
 * @returns false where the two cannot be put on one clock, and stay as they are
 */
export async function joinFeet(folder: CaptureFolder, left: CaptureRecord, right: CaptureRecord): Promise<boolean> {
  const logOf = (record: CaptureRecord, into = record) => folder.logFile(into.capture_id, record.sensors[0].sensor_id);
  const [joined_left, joined_right] = [logOf(left), logOf(right, left)];
  const joined = await joinInThread({
    left: logOf(left),
    right: logOf(right),
    left_start_s: recordingOf(left).start_s,
    right_start_s: recordingOf(right).start_s,
    joined_left: `${joined_left}.joined`,
    joined_right: `${joined_right}.joined`,
  });
  if (!joined) return false;
  for (const file of [joined_right, joined_left]) renameSync(`${file}.joined`, file);
  folder.save({
    ...left,
    started_utc: left.started_utc < right.started_utc ? left.started_utc : right.started_utc,
    sensors: [...left.sensors, ...right.sensors],
    recordings: [...(left.recordings ?? []), ...(right.recordings ?? [])],
  });
  folder.removeJoined(right);
  return true;
}

function overlap(a: FetchedRecording, b: FetchedRecording): boolean {
  if (a.start_s === null || b.start_s === null) return false;
  const shared_s = Math.min(a.start_s + a.duration_s, b.start_s + b.duration_s) - Math.max(a.start_s, b.start_s);
  return shared_s + CALENDAR_S > LEAST_OVERLAP * Math.min(a.duration_s, b.duration_s);
}

function recordingOf({ recordings = [] }: CaptureRecord): FetchedRecording {
  return recordings[0];
}

function placeOf({ sensors }: CaptureRecord) {
  return sensors[0].place;
}
