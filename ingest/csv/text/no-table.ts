import { FaultError, fault } from '../../../shared/fault.ts';
import { nameColumn } from '../columns/name-column.ts';
import { readUnit } from '../columns/units.ts';

interface Likeness {
  /** The last word of the fault NOT_A_RECORDING's sentence. */
  like: 'json' | 'markup' | 'named_values' | 'brackets' | 'units' | 'channel_beside' | 'several_a_cell';
  fits(lines: string[]): boolean;
}

const NUMBER_WITH_UNIT = /^[+-]?\d+(?:[.,]\d+)?\s*([^\d\s.,;:+-][^\d]*\d?)$/;
/** As much of a line as tells what it is. */
const LINE_LOOKED_AT = 2000;
const cellsOf = (line: string) => line.split(/[;,\t|]/).map((cell) => cell.trim());
const mostly = (lines: string[], fits: (line: string) => boolean) =>
  lines.length > 0 && lines.filter(fits).length > 0.8 * lines.length;

/** What a file without a table of numbers looks like, most telling first. */
const LIKENESSES: Likeness[] = [
  {
    like: 'named_values',
    fits: (lines) =>
      mostly(
        lines,
        (line) => (line.match(/[\p{L}\w]\s{0,3}[=:]\s{0,3}[+-]?\d/gu) ?? []).length >= 3 && !/^[{]/.test(line),
      ),
  },
  {
    like: 'json',
    fits: (lines) => /^(?:\{|\[\s{0,3}(?:[[{"]|$))/.test(lines[0]) || /^\[.*\],?$/.test(lines[0]),
  },
  {
    like: 'markup',
    fits: (lines) => /^<[!?\w]/.test(lines[0]),
  },
  {
    like: 'brackets',
    fits: (lines) =>
      mostly(lines, (line) => /[[(]\s{0,3}[+-]?\d[\d.eE+-]{0,30}[,; ]\s{0,3}[+-]?\d[^\])]{0,60}[\])]/.test(line)),
  },
  {
    like: 'units',
    fits: (lines) =>
      mostly(lines, (line) => {
        const units = cellsOf(line).filter((cell) => readUnit(NUMBER_WITH_UNIT.exec(cell)?.[1] ?? ''));
        return units.length >= 3;
      }),
  },
  { like: 'several_a_cell', fits: severalACell },
  {
    like: 'channel_beside',
    fits: (lines) =>
      mostly(lines, (line) =>
        cellsOf(line).some((cell) => /\p{L}/u.test(cell) && nameColumn(0, cell, '').axis !== null),
      ),
  },
];

/** Rows in brackets, as a programming language prints lists, or SQL inserts them. */
export function inBrackets(lines: string[]): boolean {
  const filled = lines
    .slice(1, 400)
    .map((line) => line.slice(0, LINE_LOOKED_AT).trim())
    .filter((line) => line !== '');
  return filled.length > 3 && mostly(filled, (line) => /[[(]\s{0,3}[+-]?\d[^\])]{3,1500}[\])]\s{0,3}[,;]?$/.test(line));
}

/** Cells between tabs or semicolons that hold three numbers each, parted by commas: vectors. */
export function severalACell(lines: string[]): boolean {
  const vector = /^\s{0,9}[+-]?\d[\d.eE+-]{0,30}(?:\s{0,3},\s{0,3}[+-]?\d[\d.eE+-]{0,30}){2}\s{0,9}$/;
  return mostly(
    lines.slice(0, 400).filter((line) => line.trim() !== ''),
    (line) =>
      line
        .slice(0, LINE_LOOKED_AT)
        .split(/[;\t|]/)
        .some((cell) => vector.test(cell)) && /[;\t|]/.test(line),
  );
}

/** Columns so narrow that numbers touch, `9.812-0.031`: some rows cannot be parted for sure. */
export function numbersTouch(lines: string[]): boolean {
  const looked = lines.slice(1, 400);
  const touching = looked.filter((line) => /\d\.\d+-\d{1,6}\.\d/.test(line.slice(0, LINE_LOOKED_AT)));
  return looked.length > 20 && touching.length > 0.02 * looked.length;
}

/** The refusal of a file that holds no table of numbers, with what it seems to be. */
export function noTable(
  lines: string[],
  file: string,
  columns = 0,
  known?: 'brackets' | 'touching' | 'several_a_cell',
): FaultError {
  const filled = lines.map((line) => line.slice(0, LINE_LOOKED_AT).trim()).filter((line) => line !== '');
  const like =
    known ??
    (columns > filled.length
      ? 'on_its_side'
      : LIKENESSES.find(({ fits }) => filled.length > 0 && fits(filled.length > 3 ? filled.slice(1, 200) : filled))
          ?.like);
  const begins = (filled[0] ?? '').slice(0, 80);
  return new FaultError(fault(like ? `NOT_A_RECORDING.${like}` : 'NOT_A_RECORDING', { file, begins }, { file }));
}
