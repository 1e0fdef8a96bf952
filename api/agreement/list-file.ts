import { existsSync, readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { FaultError, fault } from '../../shared/fault.ts';

/** A row of a study's list, and where it stands. */
export interface ListRow {
  row: Record<string, string>;
  at: { file: string; line: number };
}

/** Reads the list of a study: CSV with a header. @throws FaultError LIST_UNREADABLE, FILE_NOT_FOUND */
export function readListRows(file: string): ListRow[] {
  const { data } = Papa.parse<Record<string, string>>(studyText(file), { header: true, skipEmptyLines: 'greedy' });
  if (data.length === 0) throw new FaultError(fault('LIST_UNREADABLE.no_rows', { file, line: 1 }, { file, line: 1 }));
  return data.map((row, k) => ({ row, at: { file, line: k + 2 } }));
}

/** The text of a study's list, or of a file that it names. @throws FaultError FILE_NOT_FOUND */
export function studyText(file: string): string {
  needStudyFile(file);
  return readFileSync(file, 'utf8').replace(/^\uFEFF/, '');
}

/** @throws FaultError FILE_NOT_FOUND */
export function needStudyFile(file: string): void {
  if (!existsSync(file)) throw new FaultError(fault('FILE_NOT_FOUND.of_study', { file }, { file }));
}
