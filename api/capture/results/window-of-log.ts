import type { PacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { encodeRecord, type LogHeader, type PacketRecord } from '../../../shared/packet-record.ts';
import type { Excerpt } from '../recording/excerpt.ts';
import { streamLog, type TimedRecord } from '../recording/stream-log.ts';

/** A packet log to be read a piece at a time, and its last header. */
export interface LogToRead {
  file: string;
  header: LogHeader;
}

/** One log, of which the records of a moving window are held. */
export class WindowOfLog {
  readonly #header: LogHeader;
  readonly #pieces: ReturnType<typeof streamLog>;
  readonly #clocks: PacketRecord[] = [];
  #held: TimedRecord[] = [];
  #ended = false;

  constructor({ file, header }: LogToRead) {
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

  /** When the next record at or after an instant comes, of what is held and a little beyond; Infinity when there is none. */
  nextFrom(at_s: number): number {
    return this.#held.find((record) => record.at_s >= at_s)?.at_s ?? Number.POSITIVE_INFINITY;
  }

  /** A stretch of what is held, as a file of its own. */
  excerpt(capture_id: string, from_s: number, to_s: number): Excerpt {
    const bytes = Buffer.concat(this.cut(from_s, to_s).records.map(encodeRecord));
    return { file_name: `${capture_id}-${this.#header.side}.packets`, bytes: new Uint8Array(bytes) };
  }
}
