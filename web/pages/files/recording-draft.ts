import type { FileSet } from './pair-files.ts';

/** One recording about to be sent, with what is its own among several. */
export interface RecordingDraft extends FileSet {
  key: number;
  /** Time over the course, s; empty takes the common one. */
  time: string;
  /** Per cent; empty takes the common one. */
  effort: string;
}

/** A recording on its way: `begun` answers with the import's number once the files have arrived. */
export interface SentImport {
  key: number;
  draft: RecordingDraft;
  begun: Promise<number>;
}

/** The files' names, for people. */
export function namesOf(draft: FileSet): string {
  return [draft.left, draft.right, draft.both]
    .filter((file) => file !== null)
    .map((file) => file.name)
    .join(' and ');
}
