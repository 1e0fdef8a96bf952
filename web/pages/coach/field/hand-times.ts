import { signal } from '@preact/signals';
import type { FieldView } from '../../../../shared/schemas/coach/field-view.ts';
import { api } from '../../../api.ts';
import { keep, readKept } from '../kept.ts';
import { isForGood } from './is-for-good.ts';
import { assignTimes, type HandTime } from './assign-times.ts';

const NAME = 'hand-times';
const WATCH = 'stopwatch';

/** A stopwatch that runs: for whom, and when it was started, by this device's clock. */
export interface Stopwatch {
  session_id: number;
  athlete_id: number;
  name: string;
  started_ms: number;
  /** The athlete's newest repetition at the start; its own is the one after. */
  after_repetition_id: number | null;
}

/** Kept on the device: a page that is loaded anew, or a phone that slept, goes on counting. */
export const stopwatch = signal<Stopwatch | null>(readKept<Stopwatch>(WATCH));
/** Times that the server has not confirmed, or whose repetition is not in yet; kept on the device. */
export const waitingTimes = signal<HandTime[]>(readKept<HandTime[]>(NAME) ?? []);

function set(times: HandTime[]): void {
  waitingTimes.value = times;
  keep(NAME, times);
}

/** When a tap happened, by this device's clock: not when the page got round to it. */
export function momentOf(event: Event): number {
  return Date.now() - Math.max(0, performance.now() - event.timeStamp);
}

export function startStopwatch(watch: Stopwatch | null): void {
  stopwatch.value = watch;
  keep(WATCH, watch);
}

/** Ends the stopwatch; its time waits for the repetition it belongs to. */
export function stopStopwatch(stopped_ms: number): void {
  const watch = stopwatch.peek();
  startStopwatch(null);
  if (!watch) return;
  const { session_id, athlete_id, name, after_repetition_id } = watch;
  // Hand times are read to a hundredth.
  const time_s = Math.round((stopped_ms - watch.started_ms) / 10) / 100;
  if (time_s <= 0) return;
  const time = { session_id, athlete_id, name, time_s, stopped_ms, after_repetition_id, repetition_id: null };
  set([...waitingTimes.peek(), time]);
}

export function dropTime(time: HandTime): void {
  set(waitingTimes.peek().filter((entry) => entry !== time));
}

/** Gives a waiting time to a repetition by the coach's word. */
export function giveTime(time: HandTime, repetition_id: number): void {
  set(waitingTimes.peek().map((entry) => (entry === time ? { ...entry, repetition_id } : entry)));
}

/**
 * Gives waiting times to the repetitions they belong to and sends those that have one. No network throws and keeps all.
 * @param ahead_ms how far the server's clock is ahead of this device's
 */
export async function flushTimes(view: FieldView | null, ahead_ms: number): Promise<void> {
  if (view) set(assignTimes(waitingTimes.peek(), view, ahead_ms));
  for (const time of [...waitingTimes.peek()]) {
    if (time.repetition_id === null) continue;
    try {
      await api.changeRepetition(time.repetition_id, { course_time_s: time.time_s, timing_method: 'hand' });
    } catch (error) {
      if (!isForGood(error)) throw error;
    }
    dropTime(time);
  }
}
