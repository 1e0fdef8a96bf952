import Papa from 'papaparse';
import { plainStamp, readDuration } from './plain-stamp.ts';

/** Cells read as 'missing' in a channel, in lower case; more can be named in a layout. */
export const MISSING_VALUES = [
  '',
  'nan',
  'null',
  'none',
  'na',
  'n/a',
  '#n/a',
  '<na>',
  '-nan',
  '-',
  '--',
  'nil',
  '#nv',
  '1.#qnan',
  '-1.#qnan',
  '1.#ind',
  '-1.#ind',
];

const NUMBER_POINT = /^[+\-\u2212]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?$/;
const NUMBER_COMMA = /^[+\-\u2212]?(?:\d+(?:,\d*)?|,\d+)(?:[eE][+-]?\d+)?$/;
/** Thousands parted by the other mark, which leaves no doubt about the decimals: 1,234.5 or 1.234,5; also by a blank or an apostrophe. */
const GROUPED_POINT = /^[+-]?\d{1,3}(?:([,'’ \u00a0\u202f])\d{3})(?:\1\d{3})*\.\d+$/;
const GROUPED_COMMA = /^[+-]?\d{1,3}(?:([.'’ \u00a0\u202f])\d{3})(?:\1\d{3})*,\d+$/;
const DATE_OR_CLOCK =
  /^\d{1,2}\.\d{2}\.\d{2}[.,]\d+$|^\d{1,2}[- ]\p{L}{3,9}\.?[- ]\d{4}([T ]|$)|^\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}([T ]|$)|^\d{8}T\d{6}([.,]\d{1,20})?Z?$|^\d{1,3}:\d{2}(:\d{2})?([.,:]\d{1,20})?\s{0,3}([AP]M)?$/iu;

export function isNumber(cell: string, decimalMark: string): boolean {
  if ((decimalMark === ',' ? NUMBER_COMMA : NUMBER_POINT).test(cell)) return true;
  if ((decimalMark === ',' ? GROUPED_COMMA : GROUPED_POINT).test(cell)) return true;
  const plain = plainNumber(cell);
  return plain !== cell && plain !== '' && isNumber(plain, decimalMark);
}

export function isDateOrClock(cell: string): boolean {
  if (DATE_OR_CLOCK.test(cell)) return true;
  const plain = plainStamp(cell);
  return plain !== cell ? DATE_OR_CLOCK.test(plain) : Number.isFinite(readDuration(cell));
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

/** Thousands in groups, and what `plainNumber` undoes. */
function fromOtherSpelling(cell: string, decimalMark: string): number {
  const text = cell.trim();
  const grouped = (decimalMark === ',' ? GROUPED_COMMA : GROUPED_POINT).exec(text);
  if (grouped) return +text.replaceAll(grouped[1], '').replace(',', '.');
  const plain = plainNumber(text);
  return plain === text || plain === '' ? Number.NaN : toNumber(plain, decimalMark);
}

const ODD_SPELLING = /[\u2212\u066b٠-٩۰-۹０-９．－＋'="dD]/;
/** Zeros of the digits that are written in Arabic, Persian, and in full width. */
const ZEROS = ['٠', '۰', '０'].map((zero) => zero.charCodeAt(0));

/**
 * A number as programs of other countries and spreadsheets write it, spelled plainly: digits of another script, the minus sign of
 * typesetters, Fortran's exponent D, an apostrophe or `="..."` that makes it a text.
 */
function plainNumber(cell: string): string {
  if (cell.length > LONGEST_NUMBER || !ODD_SPELLING.test(cell)) return cell;
  return cell
    .replace(/^="?(.*?)"?$/, '$1')
    .replace(/^'(.*?)'?$/, '$1')
    .replace(/[٠-٩۰-۹０-９]/g, (digit) => {
      const code = digit.charCodeAt(0);
      return String(code - ZEROS.find((zero) => code >= zero && code < zero + 10)!);
    })
    .replace(/[\u066b．]/, '.')
    .replace(/[\u2212－]/g, '-')
    .replace('＋', '+')
    .replace(/^([+-]?[\d.,]+)[dD]([+-]?\d{1,3})$/, '$1e$2');
}

const LONGEST_NUMBER = 60;

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
