import type { Contact } from '../../shared/analysis.ts';
import { STEPS_CSV_COLUMNS } from '../../shared/fields.ts';
import { csvText } from '../csv-text.ts';
import { csvNumber, fileDecimals } from './csv-number.ts';
import { reasonText } from './reason-text.ts';

/**
 * One row a contact, in time order over both feet; the columns of STEPS_CSV_COLUMNS.
 * An empty field is 'not measurable'; the quantity's column `_reason` says why. Lines end in LF.
 */
export function stepsCsv(contacts: Contact[]): string {
  // Of no rows the library would make an empty one.
  if (contacts.length === 0) return `${STEPS_CSV_COLUMNS.join(',')}\n`;
  const rows = contacts.map((contact) =>
    STEPS_CSV_COLUMNS.map((column) =>
      column.endsWith('_reason')
        ? reasonOf(contact, column.slice(0, -'_reason'.length))
        : csvCell(column, contact[column as keyof Contact] as Cell),
    ),
  );
  return csvText({ fields: [...STEPS_CSV_COLUMNS], data: rows });
}

/** Why a quantity or its uncertainty is missing or wide; empty where nothing is to be said. */
function reasonOf({ reasons }: Contact, quantity: string): string {
  return reasonText(reasons[quantity] ?? reasons[`${quantity}_u`]);
}

type Cell = string | number | boolean | null;

function csvCell(column: string, value: Cell): string {
  if (typeof value === 'string' || typeof value === 'boolean') return String(value);
  return csvNumber(value, fileDecimals(column));
}
