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
    leaveOutOneNumber(numbers, rows);
    if (text.length < TEXT_ROWS) text.push(cells.slice(0, looked));
    rows++;
  }
  return { rows, numbers: numbers.map((column) => column.subarray(0, rows)), text };
}

/** Six columns and more of one number in a row, no zero: a number that stands for 'not measured', such as -999. */
const FEWEST_ALIKE = 6;

function leaveOutOneNumber(numbers: Float64Array[], row: number): void {
  if (numbers.length < FEWEST_ALIKE) return;
  // The measured columns are most of them, so that the middle one is among them.
  const value = numbers[numbers.length >> 1][row];
  if (value === 0 || Number.isNaN(value)) return;
  let alike = 0;
  for (const column of numbers) if (column[row] === value) alike++;
  if (alike < FEWEST_ALIKE) return;
  for (const column of numbers) if (column[row] === value) column[row] = Number.NaN;
}
