import { joinBlocks } from '../../ingest/csv/rows/join-blocks.ts';
import type { SampleBlock } from '../../shared/sample-block.ts';
import type { RecordingDescription } from '../store/chunks.ts';
import { type SampleSource, sourceInMemory } from '../store/sample-source.ts';
import { SampleSpool } from './sample-spool.ts';

type Facts = Pick<
  RecordingDescription,
  'side' | 'mounting' | 'sampling_rate_hz' | 'acc_range_mps2' | 'gyr_range_radps' | 'gaps'
>;

/** Two blocks of a file: from here on samples wait in a spool file for the analysis, packed as the store keeps them. */
const MOST_IN_MEMORY = 131_072;

/** Collects the blocks of one sensor as they are read: in memory while it is short, in a spool file once it is not. */
export class SampleCollector {
  readonly #folder: string;
  #blocks: SampleBlock[] = [];
  #first: SampleBlock | null = null;
  #samples = 0;
  #last_s = 0;
  #spool: SampleSpool | null = null;

  /** @param folder where a spool file may lie */
  constructor(folder: string) {
    this.#folder = folder;
  }

  append(block: SampleBlock): void {
    if (block.time_s.length === 0) return;
    this.#first ??= { ...block, time_s: block.time_s.subarray(0, 1) };
    this.#samples += block.time_s.length;
    this.#last_s = block.time_s[block.time_s.length - 1];
    if (this.#spool) {
      this.#spool.append(block);
      return;
    }
    this.#blocks.push(block);
    if (this.#samples <= MOST_IN_MEMORY) return;
    this.#spool = new SampleSpool(this.#folder, block.gyr_radps !== null);
    while (this.#blocks.length > 0) this.#spool.append(this.#blocks.shift()!);
  }

  /** @returns the recording on a clock of its own, and its spool file where it has one; null when there is no sample */
  finish(facts: Facts): { source: SampleSource; spool: SampleSpool | null } | null {
    const first = this.#first;
    if (!first) return null;
    const description: RecordingDescription = {
      ...facts,
      start_utc: first.start_utc,
      samples: this.#samples,
      duration_s: this.#last_s,
      has_gyroscope: first.gyr_radps !== null,
      clock_offset_s: 0,
      clock_drift: 0,
      clock_offset_u_s: 0,
    };
    if (!this.#spool) return { source: sourceInMemory(description, joinBlocks(this.#blocks)), spool: null };
    this.#spool.finish();
    const clock_start_s = first.clock_start_s ?? null;
    const stamps = { start_utc_u_s: first.start_utc_u_s };
    return { source: { ...description, clock_start_s, stamps, columns: this.#spool }, spool: this.#spool };
  }

  /** Gives the spool file up, when reading was refused half-way. */
  abandon(): void {
    this.#spool?.close(false);
  }
}
