import Papa from 'papaparse';

/** Cells read as 'missing' in a channel, in lower case; more can be named in a layout. */
export const MISSING_VALUES = ['', 'nan', 'null', 'none', 'na', 'n/a', '#n/a', '<na>', '-nan', '-', '--', 'nil', '#nv'];

const NUMBER_POINT = /^[+\-\u2212]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?$/;
const NUMBER_COMMA = /^[+\-\u2212]?(?:\d+(?:,\d*)?|,\d+)(?:[eE][+-]?\d+)?$/;
/** Thousands parted by the other mark, which leaves no doubt about the decimals: 1,234.5 or 1.234,5. */
const GROUPED_POINT = /^[+-]?\d{1,3}(?:,\d{3})+\.\d+$/;
const GROUPED_COMMA = /^[+-]?\d{1,3}(?:\.\d{3})+,\d+$/;
const DATE_OR_CLOCK =
  /^\d{1,2}\.\d{2}\.\d{2}[.,]\d+$|^\d{1,2}[- ]\p{L}{3,9}\.?[- ]\d{4}([T ]|$)|^\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}([T ]|$)|^\d{8}T\d{6}([.,]\d{1,20})?Z?$|^\d{1,3}:\d{2}(:\d{2})?([.,:]\d{1,20})?\s{0,3}([AP]M)?$/iu;

export function isNumber(cell: string, decimalMark: string): boolean {
  if ((decimalMark === ',' ? NUMBER_COMMA : NUMBER_POINT).test(cell)) return true;
  return (decimalMark === ',' ? GROUPED_COMMA : GROUPED_POINT).test(cell);
}

export function isDateOrClock(cell: string): boolean {
  return DATE_OR_CLOCK.test(cell);
}

/** @returns the number, NaN where the cell is no number */
export function toNumber(cell: string, decimalMark: string): number {
  if (decimalMark === ',' && cell.includes('.')) return fromOtherSpelling(cell, decimalMark);
  const text = decimalMark === ',' ? cell.replace(',', '.') : cell;
  const value = +text;
  // Number() reads an empty text as zero, and also hexadecimal, binary and Infinity: a sensor writes none of them.
  if (value === 0 && text.trim() === '') return Number.NaN;
  if (!Number.isFinite(value)) return fromOtherSpelling(cell, decimalMark);
  const second = text.trimStart().charCodeAt(1) | 32;
  return second === 120 || second === 98 || second === 111 ? Number.NaN : value;
}

/** Thousands in groups, and the minus sign of typesetters. */
function fromOtherSpelling(cell: string, decimalMark: string): number {
  if (cell.includes('\u2212')) return toNumber(cell.replace('\u2212', '-'), decimalMark);
  if (!(decimalMark === ',' ? GROUPED_COMMA : GROUPED_POINT).test(cell.trim())) return Number.NaN;
  return +cell.replaceAll(decimalMark === ',' ? '.' : ',', '').replace(',', '.');
}

/** Cells of one line, trimmed, quotes taken off. A blank as delimiter stands for any run of blanks. */
export function splitCells(line: string, delimiter: string): string[] {
  const text = delimiter === ' ' ? line.trim().replace(/[ \t]+/g, ' ') : line;
  if (!text.includes('"')) return text.split(delimiter).map(trim);
  // A blank between delimiter and quote is common and would hide the quote.
  const tight = delimiter === ' ' ? text : text.replaceAll(`${delimiter} "`, `${delimiter}"`);
  const parsed = Papa.parse<string[]>(tight, { delimiter, newline: '\n', header: false, quoteChar: '"' });
  return (parsed.data[0] ?? []).map(trim);
}

function trim(cell: string): string {
  return cell.trim();
}
