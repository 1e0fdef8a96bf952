import { csvNumber } from '../../tables/csv-number.ts';
import type { Cell, ExportColumn, ExportTable } from './column.ts';

/** Rows turned into text at once: bounds memory for tables of any length. */
const ROWS_A_PART = 2000;

/**
 * A table as CSV in parts: UTF-8, comma, LF, header row, empty = not measurable (RFC 4180 with LF).
 */
export function* csvParts(table: ExportTable): Generator<string> {
  yield `${table.columns.map(({ name }) => name).join(',')}\n`;
  const columns = table.columns.map((column) => ({ column, values: table.values.get(column.name)! }));
  for (let first = 0; first < table.rows; first += ROWS_A_PART) {
    let part = '';
    const end = Math.min(table.rows, first + ROWS_A_PART);
    for (let row = first; row < end; row++) {
      part += `${columns.map(({ column, values }) => cellText(column, values[row])).join(',')}\n`;
    }
    yield part;
  }
}

function cellText(column: ExportColumn, value: Cell): string {
  if (value === null) return '';
  if (column.type === 'boolean') return value ? 'true' : 'false';
  if (typeof value === 'number')
    return column.type === 'integer' ? String(value) : csvNumber(value, column.decimals ?? 4);
  const text = String(value);
  return /[",\n\r]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
