import { basename, dirname, resolve } from 'node:path';
import { FaultError, fault } from '../../shared/fault.ts';
import { MOUNTINGS, type Mounting } from '../../shared/words.ts';
import { needStudyFile, readListRows } from './list-file.ts';

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
  return readListRows(path).map(({ row, at }, k) => {
    const file = (name: string): string | null => {
      const cell = row[name]?.trim();
      if (!cell) return null;
      const found = resolve(dirname(path), cell);
      needStudyFile(found);
      return found;
    };
    const mounting = row.mount?.trim() as Mounting;
    if (!MOUNTINGS.includes(mounting)) {
      const values = { found: row.mount ?? '', known: [...MOUNTINGS] };
      throw new FaultError(fault('LIST_UNREADABLE.mount', { ...at, ...values }, at));
    }
    const [left, right, reference] = [file('left'), file('right'), file('reference')];
    if (!left && !right) throw new FaultError(fault('LIST_UNREADABLE.no_sensor', at, at));
    if (!reference) throw new FaultError(fault('LIST_UNREADABLE.no_reference', at, at));
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
