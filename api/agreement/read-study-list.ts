import { existsSync, readFileSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import Papa from 'papaparse';
import { FaultError } from '../../shared/fault.ts';
import { MOUNTINGS, type Mounting } from '../../shared/words.ts';

/** One recording of a study: sensor files, where they sat, and the reference. File names are resolved. */
export interface StudyLine {
  athlete: string;
  recording: string;
  left: string | null;
  right: string | null;
  mounting: Mounting;
  reference: string;
  /** As on the command line of analyze; empty when not given. */
  belt_speed: string;
  course: string;
  time: string;
}

/**
 * Reads the list of a study: CSV with a header; columns athlete, left, right, mount, reference, and if wanted recording,
 * belt_speed, course, time. Files are relative to the list.
 * @throws FaultError LIST_UNREADABLE, FILE_NOT_FOUND
 */
export function readStudyList(path: string): StudyLine[] {
  if (!existsSync(path)) throw notFound(path);
  const { data } = Papa.parse<Record<string, string>>(readFileSync(path, 'utf8').replace(/^\uFEFF/, ''), {
    header: true,
    skipEmptyLines: 'greedy',
  });
  if (data.length === 0) throw unreadable(path, 1, 'the list has no rows');
  return data.map((row, k) => {
    const file = (name: string): string | null => {
      const cell = row[name]?.trim();
      if (!cell) return null;
      const found = resolve(dirname(path), cell);
      if (!existsSync(found)) throw notFound(found);
      return found;
    };
    const mounting = row.mount?.trim() as Mounting;
    if (!MOUNTINGS.includes(mounting))
      throw unreadable(path, k + 2, `mount is "${row.mount ?? ''}"; it must be foot or shank`);
    const [left, right, reference] = [file('left'), file('right'), file('reference')];
    if (!left && !right) throw unreadable(path, k + 2, 'neither left nor right names a file');
    if (!reference) throw unreadable(path, k + 2, 'reference names no file');
    return {
      athlete: row.athlete?.trim() || `row ${k + 1}`,
      recording: row.recording?.trim() || `${basename(dirname(reference))} ${mounting}`,
      left,
      right,
      mounting,
      reference,
      belt_speed: row.belt_speed?.trim() ?? '',
      course: row.course?.trim() ?? '',
      time: row.time?.trim() ?? '',
    };
  });
}

function notFound(path: string): FaultError {
  return new FaultError({
    code: 'FILE_NOT_FOUND',
    message: `${path}: is not there or cannot be opened. The study was not made.`,
    where: { file: path },
    hint: 'File names in a list are relative to the list.',
  });
}

function unreadable(path: string, line: number, found: string): FaultError {
  return new FaultError({
    code: 'LIST_UNREADABLE',
    message: `${path}, line ${line}: ${found}. The study was not made.`,
    where: { file: path, line },
    hint: 'Columns: athlete, left, right, mount, reference; and if wanted recording, belt_speed, course, time.',
  });
}
