import Papa from 'papaparse';
import { FaultError, fault } from '../../shared/fault.ts';
import type { Side } from '../../shared/words.ts';

/** A contact as the reference system saw it; what it did not see is null. */
export interface ReferenceContact {
  side: Side;
  touchdown_s: number;
  toe_off_s: number | null;
  step_length_m: number | null;
}

/**
 * Reads reference contacts: CSV with a header; columns side (left, right or unknown), touchdown_s, and if there are any
 * toe_off_s and step_length_m; others are ignored.
 * @throws FaultError REFERENCE_UNREADABLE
 */
export function readReference(text: string, file: string): ReferenceContact[] {
  const { data, meta } = Papa.parse<Record<string, string>>(text.replace(/^\uFEFF/, '').trim(), {
    header: true,
    delimiter: '',
    skipEmptyLines: true,
  });
  if (!meta.fields?.includes('touchdown_s')) {
    const header = (meta.fields ?? []).join(', ').slice(0, 120);
    throw new FaultError(fault('REFERENCE_UNREADABLE.header', { file, line: 1, header }, { file, line: 1 }));
  }
  const contacts = data.map((row, k): ReferenceContact => {
    const at = { file, line: k + 2 };
    const number = (name: string, needed: boolean): number | null => {
      const cell = row[name]?.trim() ?? '';
      if (cell === '' || cell === 'n/a') {
        if (needed) throw new FaultError(fault('REFERENCE_UNREADABLE.empty', { ...at, column: name }, at));
        return null;
      }
      const value = Number(cell);
      if (!Number.isFinite(value)) {
        throw new FaultError(fault('REFERENCE_UNREADABLE.no_number', { ...at, column: name, found: cell }, at));
      }
      return value;
    };
    const side = (row.side ?? 'unknown').trim().toLowerCase();
    if (side !== 'left' && side !== 'right' && side !== 'unknown') {
      throw new FaultError(fault('REFERENCE_UNREADABLE.side', { ...at, found: side }, at));
    }
    return {
      side,
      touchdown_s: number('touchdown_s', true)!,
      toe_off_s: number('toe_off_s', false),
      step_length_m: number('step_length_m', false),
    };
  });
  if (contacts.length === 0) {
    throw new FaultError(fault('REFERENCE_UNREADABLE.no_rows', { file, line: 2 }, { file, line: 2 }));
  }
  return contacts.sort((a, b) => a.touchdown_s - b.touchdown_s);
}
