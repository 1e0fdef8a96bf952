import { MOST_COLUMNS } from '../../../shared/schemas/layout.ts';
import { splitCells, toNumber } from './cells.ts';
import type { TableShape } from './sniff-table.ts';

const ROWS_LOOKED_AT = 30_000;

/** The first rows of the file as numbers, by which units, scale and time are found. */
export interface HeadTable {
  rows: number;
  /** One array a column (MOST_COLUMNS at most), NaN where a cell is no number. */
  numbers: Float64Array[];
  /** Cells of the first rows as text, one array a row. */
  text: string[][];
}

const TEXT_ROWS = 6000;

export function readHeadTable(lines: string[], shape: TableShape): HeadTable {
  const text: string[][] = [];
  const looked = Math.min(shape.column_count, MOST_COLUMNS);
  const numbers = Array.from({ length: looked }, () => new Float64Array(Math.min(lines.length, ROWS_LOOKED_AT)));
  let rows = 0;
  for (let line = shape.first_row_line; line < lines.length && rows < ROWS_LOOKED_AT; line++) {
    if (lines[line].trim() === '') continue;
    const cells = splitCells(lines[line], shape.delimiter);
    if (cells.length < shape.column_count) continue;
    for (let column = 0; column < looked; column++) numbers[column][rows] = toNumber(cells[column], shape.decimal_mark);
    if (text.length < TEXT_ROWS) text.push(cells.slice(0, looked));
    rows++;
  }
  return { rows, numbers: numbers.map((column) => column.subarray(0, rows)), text };
}
