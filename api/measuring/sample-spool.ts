import { closeSync, existsSync, openSync, readdirSync, readSync, rmSync, writeSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { threadId } from 'node:worker_threads';
import type { SampleBlock } from '../../shared/sample-block.ts';
import { decodeChannel, encodeChannel } from '../store/channel-codec.ts';
import { CHUNK_SAMPLES, type EncodedChunk } from '../store/chunks.ts';
import { keepDiskFloor } from '../store/disk-floor.ts';
import { CHANNELS, type Channel } from '../store/channels.ts';
import { columnOf } from '../store/channels.ts';
import type { SampleColumns } from '../store/sample-source.ts';
import { freeMemory } from '../free-memory.ts';

/** Where a chunk lies in the spool file. */
export type SpooledChunk = Omit<EncodedChunk, 'bytes'> & { offset: number; length: number };

/** What another thread needs to take the chunks over. */
export interface SpoolIndex {
  file: string;
  chunks: SpooledChunk[];
}

/** Chunks of each channel written between two collections: 2 x 7 x 128 kB of samples, and as much again on the way to bytes. */
const COLLECT_EVERY = 4;

/** Names of spool files, for clearing up after a crash. */
const SPOOL_NAME = /^spool-(\d+)-(\d+)-\d+\.part$/;

let spools = 0;

/**
 * Takes a recording that is too long for memory as it is read, chunk by chunk, into a passing file, in the form the store
 * keeps it in. Memory holds one chunk of each channel.
 */
export class SampleSpool implements SampleColumns {
  readonly sparse_times: NonNullable<SampleColumns['sparse_times']> = {
    every: CHUNK_SAMPLES,
    times: new Float64Array(0),
  };
  readonly index: SpoolIndex;
  readonly #channels: readonly Channel[];
  readonly #waiting: Record<string, Float64Array>;
  readonly #fd: number;
  readonly #byChannel = new Map<string, SpooledChunk[]>();
  #waitingSamples = 0;
  #samples = 0;
  #offset = 0;
  /** The chunk decoded last, a channel: windows are read in order. */
  readonly #decoded = new Map<string, { sequence: number; values: Float64Array }>();

  constructor(folder: string, hasGyroscope: boolean) {
    this.index = { file: spoolFile(folder), chunks: [] };
    this.#fd = openSync(this.index.file, 'w+', 0o600);
    this.#channels = hasGyroscope ? CHANNELS : CHANNELS.slice(0, 4);
    this.#waiting = Object.fromEntries(this.#channels.map((channel) => [channel, new Float64Array(CHUNK_SAMPLES)]));
  }

  append(block: SampleBlock): void {
    const n = block.time_s.length;
    for (let from = 0; from < n; ) {
      const take = Math.min(n - from, CHUNK_SAMPLES - this.#waitingSamples);
      for (const channel of this.#channels) {
        this.#waiting[channel].set(columnOf(block, channel).subarray(from, from + take), this.#waitingSamples);
      }
      this.#waitingSamples += take;
      from += take;
      if (this.#waitingSamples === CHUNK_SAMPLES) this.#writeChunks();
    }
  }

  /** Writes what waits. Reading is possible from here on. */
  finish(): void {
    if (this.#waitingSamples > 0) this.#writeChunks();
    this.sparse_times.times = Float64Array.from(
      this.#byChannel.get('time_s') ?? [],
      (chunk) => this.#decode('time_s', chunk.sequence)[0],
    );
  }

  read(channel: Channel, first: number, end: number): Float64Array {
    const values = new Float64Array(Math.max(0, end - first));
    for (let sequence = Math.floor(first / CHUNK_SAMPLES); sequence * CHUNK_SAMPLES < end; sequence++) {
      const start = sequence * CHUNK_SAMPLES;
      const chunk = this.#decode(channel, sequence);
      values.set(chunk.subarray(Math.max(0, first - start), end - start), Math.max(0, start - first));
    }
    return values;
  }

  /** Closes the file, and takes it away unless another thread is to read it. */
  close(keep: boolean): void {
    closeSync(this.#fd);
    if (!keep) rmSync(this.index.file, { force: true });
  }

  #writeChunks(): void {
    const sequence = Math.floor(this.#samples / CHUNK_SAMPLES);
    for (const channel of this.#channels) {
      const bytes = encodeChannel(this.#waiting[channel].subarray(0, this.#waitingSamples));
      const chunk: SpooledChunk = {
        channel,
        sequence,
        first_sample: this.#samples,
        samples: this.#waitingSamples,
        offset: this.#offset,
        length: bytes.length,
      };
      writeSync(this.#fd, bytes, 0, bytes.length, this.#offset);
      this.#offset += bytes.length;
      this.index.chunks.push(chunk);
      const own = this.#byChannel.get(channel);
      if (own) own.push(chunk);
      else this.#byChannel.set(channel, [chunk]);
    }
    this.#samples += this.#waitingSamples;
    this.#waitingSamples = 0;
    if (sequence % COLLECT_EVERY !== COLLECT_EVERY - 1) return;
    freeMemory();
    keepDiskFloor(dirname(this.index.file));
  }

  #decode(channel: Channel, sequence: number): Float64Array {
    const known = this.#decoded.get(channel);
    if (known?.sequence === sequence) return known.values;
    const chunk = this.#byChannel.get(channel)![sequence];
    const bytes = new Uint8Array(chunk.length);
    readSync(this.#fd, bytes, 0, chunk.length, chunk.offset);
    const values = decodeChannel(bytes);
    this.#decoded.set(channel, { sequence, values });
    return values;
  }
}

/** The chunks of a spool file, a few at a time. */
export function* readSpool({ file, chunks }: SpoolIndex, atOnce: number): Generator<EncodedChunk[]> {
  const fd = openSync(file, 'r');
  try {
    for (let from = 0; from < chunks.length; from += atOnce) {
      yield chunks.slice(from, from + atOnce).map(({ offset, length, ...chunk }) => {
        const bytes = new Uint8Array(length);
        readSync(fd, bytes, 0, length, offset);
        return { ...chunk, bytes };
      });
    }
  } finally {
    closeSync(fd);
  }
}

/** A name for a new spool file; it tells the program and the thread that it belongs to. */
export function spoolFile(folder: string): string {
  return join(folder, `spool-${process.pid}-${threadId}-${spools++}.part`);
}

/**
 * Takes away spool files that a killed program left in a folder, or those that a thread of this program left.
 * @param thread only files of this thread
 */
export function removeSpools(folder: string, thread?: number): void {
  if (!existsSync(folder)) return;
  for (const name of readdirSync(folder)) {
    const [, pid, of] = SPOOL_NAME.exec(name) ?? [];
    if (!pid || (thread !== undefined && (Number(pid) !== process.pid || Number(of) !== thread))) continue;
    rmSync(join(folder, name), { force: true });
  }
}
