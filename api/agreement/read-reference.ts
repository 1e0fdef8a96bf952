import Papa from 'papaparse';
import { FaultError } from '../../shared/fault.ts';
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
    throw unreadable(
      file,
      1,
      `the header is "${(meta.fields ?? []).join(', ').slice(0, 120)}"`,
      'a column touchdown_s',
    );
  }
  const contacts = data.map((row, k): ReferenceContact => {
    const number = (name: string, needed: boolean): number | null => {
      const cell = row[name]?.trim() ?? '';
      if (cell === '' || cell === 'n/a') {
        if (needed) throw unreadable(file, k + 2, `${name} is empty`, 'a number of seconds');
        return null;
      }
      const value = Number(cell);
      if (!Number.isFinite(value)) throw unreadable(file, k + 2, `${name} is "${cell}"`, 'a number');
      return value;
    };
    const side = (row.side ?? 'unknown').trim().toLowerCase();
    if (side !== 'left' && side !== 'right' && side !== 'unknown') {
      throw unreadable(file, k + 2, `side is "${side}"`, 'left, right or unknown');
    }
    return {
      side,
      touchdown_s: number('touchdown_s', true)!,
      toe_off_s: number('toe_off_s', false),
      step_length_m: number('step_length_m', false),
    };
  });
  if (contacts.length === 0) throw unreadable(file, 2, 'there are no rows', 'a row a contact');
  return contacts.sort((a, b) => a.touchdown_s - b.touchdown_s);
}

function unreadable(file: string, line: number, found: string, expected: string): FaultError {
  return new FaultError({
    code: 'REFERENCE_UNREADABLE',
    message: `${file}, line ${line}: ${found}; expected ${expected}. The reference was not used.`,
    where: { file, line },
    hint: 'Columns: side, touchdown_s, toe_off_s, step_length_m; a row a contact, seconds on one clock.',
  });
}
