import { analyse } from '../../../dsp/analyse.ts';
import { alignStreams } from '../../../ingest/ble/assembly/align-streams.ts';
import { assembleLog, type PacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import { freeMemory } from '../../free-memory.ts';
import { movingStretches } from './moving-stretches.ts';
import type { Excerpt } from '../recording/excerpt.ts';
import { type LogToRead, WindowOfLog } from './window-of-log.ts';

/** Host time looked at in one go, and how much of what lies before and behind is looked at with it, seconds. */
const WINDOW_S = 60;
const BEFORE_S = 15;
const BEHIND_S = 75;
/** Of a repetition's surroundings, what is kept with it: as while a capture runs. */
const LEAD_S = 6;
const TRAIL_S = 1.4;
/** Detection may put the same start a little apart in two windows. */
const SLACK_S = 5;

/** Logs of one athlete's sensors, to be looked through for repetitions that are not in the store. */
export interface MissedRequest {
  capture_id: string;
  sensors: LogToRead[];
  first_s: number;
  last_s: number;
  /** Host time up to which everything is in the store. */
  handled_s: number;
}

/** A repetition in packet logs, by host time, and its packets. */
export interface FoundRepetition {
  start_s: number;
  end_s: number;
  excerpts: Excerpt[];
}

/**
 * Looks through logs of any length for repetitions that begin behind `handled_s`, a window at a time, and hands each out as it is found.
 * Slow work without side effects, for a thread of its own.
 */
export function* findMissed({
  capture_id,
  sensors,
  first_s,
  last_s,
  handled_s,
}: MissedRequest): Generator<FoundRepetition> {
  const windows = sensors.map((sensor) => new WindowOfLog(sensor));
  let done_s = handled_s;
  for (let from_s = first_s; from_s <= last_s; from_s = nextStart(windows, from_s)) {
    freeMemory();
    const logs = windows.map((window) => window.move(from_s - BEFORE_S, from_s + WINDOW_S + BEHIND_S));
    for (const { start_s, end_s } of repetitionsIn(logs)) {
      if (start_s <= done_s || start_s >= from_s + WINDOW_S || start_s < from_s - SLACK_S) continue;
      const from = Math.max(done_s, start_s - LEAD_S);
      const excerpts = windows.map((window) => window.excerpt(capture_id, from, end_s + TRAIL_S));
      done_s = end_s;
      yield { start_s, end_s, excerpts };
    }
  }
}

/** Where the next window begins: hours without a packet are passed over. */
function nextStart(windows: WindowOfLog[], from_s: number): number {
  const next_s = Math.min(...windows.map((window) => window.nextFrom(from_s + WINDOW_S)));
  const start_s = Math.max(from_s + WINDOW_S, next_s - BEFORE_S);
  // Times too large to be told apart are no times.
  return start_s > from_s ? start_s : Number.POSITIVE_INFINITY;
}

/** First touchdowns and last toe-offs by host time, in order. Only where somebody moved is looked at closely. */
function repetitionsIn(logs: PacketLog[]): { start_s: number; end_s: number }[] {
  const streams = logs.map((log) => ({ ...log.header, assembler: assembleLog(log) }));
  const whole = alignStreams(streams);
  return (whole === null ? [] : movingStretches(whole)).flatMap(({ from_s, to_s }) => {
    const aligned = alignStreams(streams, from_s, to_s);
    if (aligned === null) return [];
    freeMemory();
    const { sensors, zero_s } = aligned;
    const { repetitions } = analyse({ sensors, course: UNKNOWN_COURSE, conditions: UNKNOWN_CONDITIONS });
    return repetitions.map((one) => ({ start_s: zero_s + one.start_s, end_s: zero_s + one.end_s }));
  });
}
