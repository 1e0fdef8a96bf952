import { harmlessText } from '../../csv-text.ts';
import { csvNumber } from '../../measuring/csv-number.ts';
import type { Batch, Cell, ExportColumn, ExportTable } from './column.ts';

/**
 * A table as CSV in parts: UTF-8, comma, LF, header row, empty = not measurable (RFC 4180 with LF).
 */
export function* csvParts(table: ExportTable): Generator<string> {
  yield csvHeader(table.columns);
  for (const batch of table.batches()) yield csvRows(table.columns, batch);
}

export function csvHeader(columns: ExportColumn[]): string {
  return `${columns.map(({ name }) => name).join(',')}\n`;
}

/** The rows of one batch, without a header. */
export function csvRows(columns: ExportColumn[], batch: Batch): string {
  const filled = columns.map((column) => ({ column, values: batch.values.get(column.name)! }));
  let part = '';
  for (let row = 0; row < batch.rows; row++)
    part += `${filled.map(({ column, values }) => cellText(column, values[row])).join(',')}\n`;
  return part;
}

function cellText(column: ExportColumn, value: Cell): string {
  if (value === null) return '';
  if (column.type === 'boolean') return value ? 'true' : 'false';
  if (typeof value === 'number')
    return column.type === 'integer' ? String(value) : csvNumber(value, column.decimals ?? 4);
  const text = harmlessText(String(value));
  return /[",\n\r]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
