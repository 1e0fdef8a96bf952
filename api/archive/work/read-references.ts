import { existsSync, readFileSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import Papa from 'papaparse';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { GivenReference } from './do-agreement.ts';

const UUID = /^[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/**
 * Reads the list of an agreement study in an archive: CSV with a header; columns repetition (its identifier in the archive) and
 * reference (a file, relative to the list), and if wanted recording, its name in the report.
 * @returns references by the repetition's identifier
 * @throws FaultError LIST_UNREADABLE, FILE_NOT_FOUND
 */
export function readReferences(path: string): Map<string, GivenReference> {
  const { data } = Papa.parse<Record<string, string>>(textOf(path), { header: true, skipEmptyLines: 'greedy' });
  if (data.length === 0)
    throw new FaultError(fault('LIST_UNREADABLE.no_rows', { file: path, line: 1 }, { file: path, line: 1 }));
  const references = new Map<string, GivenReference>();
  for (const [k, row] of data.entries()) {
    const at = { file: path, line: k + 2 };
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
      reference_csv: textOf(file),
    });
  }
  return references;
}

function textOf(file: string): string {
  if (!existsSync(file)) throw new FaultError(fault('FILE_NOT_FOUND.of_study', { file }, { file }));
  return readFileSync(file, 'utf8').replace(/^\uFEFF/, '');
}
