import Papa from 'papaparse';
import type { Contact } from '../../shared/analysis.ts';
import { STEPS_CSV_COLUMNS } from '../../shared/fields.ts';
import { csvNumber, fileDecimals } from './csv-number.ts';

/**
 * One row a contact, in time order over both feet; the columns of STEPS_CSV_COLUMNS.
 * An empty field is 'not measurable'. Lines end in LF.
 */
export function stepsCsv(contacts: Contact[]): string {
  // Of no rows the library would make an empty one.
  if (contacts.length === 0) return `${STEPS_CSV_COLUMNS.join(',')}\n`;
  const rows = contacts.map((contact) =>
    STEPS_CSV_COLUMNS.map((column) => csvCell(column, contact[column as keyof Contact] as Cell)),
  );
  return `${Papa.unparse({ fields: [...STEPS_CSV_COLUMNS], data: rows }, { newline: '\n' })}\n`;
}

type Cell = string | number | boolean | null;

function csvCell(column: string, value: Cell): string {
  if (typeof value === 'string' || typeof value === 'boolean') return String(value);
  return csvNumber(value, fileDecimals(column));
}
