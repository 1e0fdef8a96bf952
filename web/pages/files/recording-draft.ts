import type { Signal } from '@preact/signals';
import type { Layout } from '../../../shared/schemas/layout.ts';
import type { FileSet } from './pair-files.ts';

/** One recording about to be sent, with what is its own among several. */
export interface RecordingDraft extends FileSet {
  key: number;
  /** Empty takes the common one. */
  athlete_id: string;
  /** Time over the course, s; empty takes the common one. */
  time: string;
  /** Per cent; empty takes the common one. */
  effort: string;
  /** How to read the files that were put right, null while that is not finished; the others are read as the program finds. */
  layouts: Map<File, Layout | null>;
}

/** A recording on its way. */
export interface SentImport {
  key: number;
  draft: RecordingDraft;
  /** Answers with the import's number once the files have arrived. */
  begun: Promise<number>;
  /** Share of the bytes that have travelled, 0 to 1; null while it waits for the ones before it. */
  travelled: Signal<number | null>;
  /** Lets the next recording go: this one has ended, or nobody looks any more. */
  release: () => void;
  /** Stops the sending. */
  abort: () => void;
}

/** The files' names. */
export function namesOf(draft: FileSet): string[] {
  return [draft.left, draft.right, draft.both].filter((file) => file !== null).map((file) => file.name);
}
