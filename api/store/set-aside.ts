import type { Reason } from '../../shared/reason.ts';

/** Rows of the files that could not be read. The first 10 000 of a file are kept with their text. */
export interface SetAside {
  count: number;
  rows: { file: string; line: number; column: string | null; found: Reason; expected: Reason; text: string }[];
}
