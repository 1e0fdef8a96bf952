import { analyse } from '../../../dsp/analyse.ts';
import { alignStreams } from '../../../ingest/ble/assembly/align-streams.ts';
import { assembleLog, type PacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import { encodeRecord, type LogHeader, type PacketRecord } from '../../../shared/packet-record.ts';
import { freeMemory } from '../../free-memory.ts';
import { streamLog, type TimedRecord } from '../recording/stream-log.ts';
import { movingStretches } from './moving-stretches.ts';

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
  sensors: { file: string; header: LogHeader }[];
  first_s: number;
  last_s: number;
  /** Host time up to which everything is in the store. */
  handled_s: number;
}

export interface MissedRepetition {
  start_s: number;
  end_s: number;
  excerpts: { file_name: string; bytes: Uint8Array }[];
}

/** One log, of which the records of a moving window are held. */
class WindowOfLog {
  readonly #header: LogHeader;
  readonly #pieces: ReturnType<typeof streamLog>;
  readonly #clocks: PacketRecord[] = [];
  #held: TimedRecord[] = [];
  #ended = false;

  constructor(file: string, header: LogHeader) {
    this.#header = header;
    this.#pieces = streamLog(file);
  }

  /** Moves on. @param from_s what lies before is let go for good */
  move(from_s: number, to_s: number): PacketLog {
    while (!this.#ended && (this.#held.at(-1)?.at_s ?? Number.NEGATIVE_INFINITY) <= to_s) {
      const { value, done } = this.#pieces.next();
      this.#ended = done === true;
      if (!value) continue;
      for (const { record } of value.records)
        if (record.kind === 'event' && record.event.event === 'clock') this.#clocks.push(record);
      for (const timed of value.records) if (timed.at_s >= from_s) this.#held.push(timed);
    }
    this.#held = this.#held.filter(({ at_s }) => at_s >= from_s);
    return this.cut(from_s, to_s);
  }

  /** The header, every reading of the clocks, and what arrived in a stretch of what is held. */
  cut(from_s: number, to_s: number): PacketLog {
    const within = this.#held
      .filter(({ record, at_s }) => at_s >= from_s && at_s <= to_s && record.kind !== 'header')
      .map(({ record }) => record);
    // Readings within stay where they are: they say on which clock the packets behind them arrived.
    const before = this.#clocks.filter((reading) => !within.includes(reading));
    const records = [...before, ...within];
    const header: PacketRecord = { kind: 'header', arrival_s: 0, header: this.#header };
    return { header: this.#header, records: [header, ...records], good_bytes: 0, damaged: [] };
  }
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
}: MissedRequest): Generator<MissedRepetition> {
  const windows = sensors.map(({ file, header }) => new WindowOfLog(file, header));
  let done_s = handled_s;
  for (let from_s = first_s; from_s <= last_s; from_s += WINDOW_S) {
    freeMemory();
    const logs = windows.map((window) => window.move(from_s - BEFORE_S, from_s + WINDOW_S + BEHIND_S));
    for (const { start_s, end_s } of repetitionsIn(logs)) {
      if (start_s <= done_s || start_s >= from_s + WINDOW_S || start_s < from_s - SLACK_S) continue;
      const excerpts = windows.map((window, i) => {
        const log = window.cut(Math.max(done_s, start_s - LEAD_S), end_s + TRAIL_S);
        const bytes = Buffer.concat(log.records.map(encodeRecord));
        return { file_name: `${capture_id}-${sensors[i].header.side}.packets`, bytes: new Uint8Array(bytes) };
      });
      done_s = end_s;
      yield { start_s, end_s, excerpts };
    }
  }
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
