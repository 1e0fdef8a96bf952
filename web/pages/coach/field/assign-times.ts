import type { FieldView } from '../../../../shared/schemas/coach/field-view.ts';

/** A time taken by hand that is not stored yet. */
export interface HandTime {
  session_id: number;
  athlete_id: number;
  name: string;
  time_s: number;
  /** When it was stopped, by this device's clock. */
  stopped_ms: number;
  /** The athlete's newest repetition when the watch was started; null for none. */
  after_repetition_id: number | null;
  /** The repetition it was given to; null while that one is not in. */
  repetition_id: number | null;
}

/** A result that ended this long before or after the stop is the one that was timed: results come seconds after the line. */
const NEAR_MS = 20_000;
/** A repetition that came in after the watch was started is taken for the timed one up to this long after. */
const LATER_MS = 10 * 60_000;

/**
 * Gives each waiting time the repetition it was taken of: the athlete's newest, where that has no time yet and either ended near
 * the stop or came in since the start. What cannot be told stays waiting for the coach's word.
 * @param ahead_ms how far the server's clock is ahead of this device's
 */
export function assignTimes(times: readonly HandTime[], view: FieldView, ahead_ms: number): HandTime[] {
  const taken = new Set(times.flatMap((time) => time.repetition_id ?? []));
  return times.map((time) => {
    if (time.repetition_id !== null || time.session_id !== view.session_id) return time;
    const latest = view.athletes.find((athlete) => athlete.athlete_id === time.athlete_id)?.latest;
    if (!latest || latest.time_s !== null || taken.has(latest.repetition_id)) return time;
    const apart_ms = Date.parse(latest.rest_from_utc) - (time.stopped_ms + ahead_ms);
    const isNew = latest.repetition_id !== time.after_repetition_id;
    if (Math.abs(apart_ms) > (isNew ? LATER_MS : NEAR_MS)) return time;
    taken.add(latest.repetition_id);
    return { ...time, repetition_id: latest.repetition_id };
  });
}
