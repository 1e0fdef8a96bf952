import { basename, dirname, resolve } from 'node:path';
import { FaultError, fault } from '../../../shared/fault.ts';
import { readListRows, studyText } from '../../agreement/list-file.ts';
import type { GivenReference } from './do-agreement.ts';

const UUID = /^[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/**
 * Reads the list of an agreement study in an archive: CSV with a header; columns repetition (its identifier in the archive) and
 * reference (a file, relative to the list), and if wanted recording, its name in the report.
 * @returns references by the repetition's identifier
 * @throws FaultError LIST_UNREADABLE, FILE_NOT_FOUND
 */
export function readReferences(path: string): Map<string, GivenReference> {
  const references = new Map<string, GivenReference>();
  for (const { row, at } of readListRows(path)) {
    const repetition = row.repetition?.trim().toLowerCase() ?? '';
    if (!UUID.test(repetition))
      throw new FaultError(fault('LIST_UNREADABLE.no_repetition', { ...at, found: row.repetition ?? '' }, at));
    if (references.has(repetition))
      throw new FaultError(fault('LIST_UNREADABLE.repetition_twice', { ...at, found: repetition }, at));
    const named = row.reference?.trim();
    if (!named) throw new FaultError(fault('LIST_UNREADABLE.no_reference', at, at));
    const file = resolve(dirname(path), named);
    references.set(repetition, {
      recording: row.recording?.trim() || `repetition ${repetition.slice(0, 8)}`,
      file: basename(file),
      reference_csv: studyText(file),
    });
  }
  return references;
}
