import { closeSync, openSync, readSync, rmSync, writeSync } from 'node:fs';
import type { RepetitionResult } from '../../shared/analysis.ts';
import { spoolFile } from './sample-spool.ts';

/** Where the repetitions of a long recording lie, for another thread: one after the other as JSON, with the bytes of each. */
export interface ResultIndex {
  file: string;
  lengths: number[];
}

/** Takes the repetitions of a long recording as they are found, into a passing file: a day holds more than fits in memory. */
export class ResultSpool {
  readonly index: ResultIndex;
  #fd: number | null = null;

  /** @param folder where the file may lie; it is made with the first result */
  constructor(folder: string) {
    this.index = { file: spoolFile(folder), lengths: [] };
  }

  add(result: RepetitionResult): void {
    this.#fd ??= openSync(this.index.file, 'w');
    const bytes = Buffer.from(JSON.stringify(result));
    writeSync(this.#fd, bytes);
    this.index.lengths.push(bytes.length);
  }

  /** Nothing more is added; what there is can be read. */
  finish(): void {
    if (this.#fd !== null) closeSync(this.#fd);
    this.#fd = null;
  }

  /** Forgets what was added, and takes the file away. */
  clear(): void {
    this.finish();
    this.index.lengths.length = 0;
    rmSync(this.index.file, { force: true });
  }
}

/** The repetitions of a closed result spool, one in memory at a time; can be gone through again and again. */
export function spooledResults({ file, lengths }: ResultIndex): Iterable<RepetitionResult> {
  return {
    *[Symbol.iterator]() {
      const fd = openSync(file, 'r');
      try {
        let at = 0;
        for (const length of lengths) {
          const bytes = Buffer.alloc(length);
          readSync(fd, bytes, 0, length, at);
          at += length;
          yield JSON.parse(bytes.toString()) as RepetitionResult;
        }
      } finally {
        closeSync(fd);
      }
    },
  };
}
