import type { FoundRepetition } from './find-missed.ts';
import { type LogToRead, WindowOfLog } from './window-of-log.ts';

/** Repetitions whose place in the logs is known, of one group of sensors. */
export interface PendingRequest {
  capture_id: string;
  sensors: LogToRead[];
  /** By host time; in the order of `from_s`. */
  spans: { start_s: number; end_s: number; from_s: number; to_s: number }[];
}

/** Cuts repetitions out of logs of any length, one after the other. For a thread of its own. */
export function* cutPending({ capture_id, sensors, spans }: PendingRequest): Generator<FoundRepetition> {
  const windows = sensors.map((sensor) => new WindowOfLog(sensor));
  for (const { start_s, end_s, from_s, to_s } of spans) {
    for (const window of windows) window.move(from_s, to_s);
    yield { start_s, end_s, excerpts: windows.map((window) => window.excerpt(capture_id, from_s, to_s)) };
  }
}
