import { feedRecord } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { type StreamCounts, StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import type { SampleBlock } from '../../../shared/sample-block.ts';
import type { LogToRead } from '../results/window-of-log.ts';
import { streamLog } from '../recording/stream-log.ts';

/** How long samples wait for what may still come late or move their times, seconds. */
const SETTLED_S = 60;
/** Samples are handed out this many seconds at a time: some milliseconds of work. */
const STRETCH_S = 10;
/** What is held of those that were handed out: kinds of packet are put together by the samples about an instant. */
const BEHIND_S = 5;
/** Of a first look for the rate alone, what is held: over ten minutes an interval of the link comes to some millionths. */
const KEEP_S = 600;

export interface Stretch {
  block: SampleBlock;
  /** Sensor time of the block's first sample, seconds. */
  first_s: number;
}

/** What a log came to. */
export interface LogContent {
  counts: StreamCounts;
  damaged_bytes: number;
}

/**
 * Goes through a packet log of any length by the path that live packets take, letting others have the thread in between: hands out its
 * samples in order, each once, and says in the end what it came to. Memory does not grow with the log's length.
 */
export async function* readThrough({ file, header }: LogToRead): AsyncGenerator<Stretch, LogContent> {
  const { description, settings, measured_rate_hz = null } = header;
  // Without stamps samples are timed by the rate, and that is known best at the end.
  const rate_hz = description.time_stamp === null ? await rateOf({ file, header }) : measured_rate_hz;
  const assembler = new StreamAssembler(description, settings, Number.POSITIVE_INFINITY, rate_hz);
  assembler.settleRate();
  let damaged_bytes = 0;
  let next_s = Number.NEGATIVE_INFINITY;
  const upTo = function* (until_s: number): Generator<Stretch> {
    for (;;) {
      const from_s = assembler.timeFrom(next_s);
      if (from_s === null || from_s > until_s) return;
      const made = assembler.block(from_s, Math.min(from_s + STRETCH_S, until_s));
      if (made === null) return;
      yield made;
      // A quarter of a sample behind the last one.
      next_s = made.first_s + made.block.time_s[made.block.time_s.length - 1] + 0.25 / settings.rate_hz;
      assembler.forgetBefore(next_s - BEHIND_S);
    }
  };
  for (const { records, damaged_bytes: skipped } of streamLog(file)) {
    damaged_bytes += skipped;
    for (const { record, at_s } of records) {
      feedRecord(record, at_s, assembler);
      const latest_s = assembler.latestTime();
      if (latest_s !== null && latest_s - SETTLED_S - STRETCH_S > next_s) {
        yield* upTo(latest_s - SETTLED_S);
        next_s = Math.max(next_s, latest_s - SETTLED_S);
      }
    }
    await new Promise((resolve) => setImmediate(resolve));
  }
  assembler.finish();
  yield* upTo(Number.POSITIVE_INFINITY);
  return { counts: assembler.counts, damaged_bytes };
}

/** The rate that samples without stamps are to be timed by; null where it is the described one. */
async function rateOf({ file, header }: LogToRead): Promise<number | null> {
  const { description, settings, measured_rate_hz = null } = header;
  const assembler = new StreamAssembler(description, settings, KEEP_S, measured_rate_hz);
  for (const { records } of streamLog(file)) {
    for (const { record, at_s } of records) feedRecord(record, at_s, assembler);
    await new Promise((resolve) => setImmediate(resolve));
  }
  assembler.finish();
  return assembler.corrected_rate_hz;
}
