import { FaultError } from '../../../shared/fault.ts';
import { nameColumn } from '../columns/name-column.ts';
import { readUnit } from '../columns/units.ts';

interface Likeness {
  found: string;
  hint: string;
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
    found: 'JSON',
    hint: 'Export the recording as CSV: a line of names, then one row an instant.',
    fits: (lines) => /^[[{]/.test(lines[0]),
  },
  {
    found: 'markup (HTML or XML)',
    hint: 'Export the recording as CSV; a web page saved under that name is none.',
    fits: (lines) => /^<[!?\w]/.test(lines[0]),
  },
  {
    found: 'a name with every value (name=value)',
    hint: 'Export the recording as CSV: the names once in the first line, then one row an instant.',
    fits: (lines) => mostly(lines, (line) => (line.match(/[\p{L}\w]\s{0,3}[=:]\s{0,3}[+-]?\d/gu) ?? []).length >= 3),
  },
  {
    found: 'numbers in brackets, several a cell',
    hint: 'Export every axis in a column of its own.',
    fits: (lines) =>
      mostly(lines, (line) => /[[(]\s{0,3}[+-]?\d[\d.eE+-]{0,30}[,; ]\s{0,3}[+-]?\d[^\])]{0,60}[\])]/.test(line)),
  },
  {
    found: 'numbers with their unit in every cell',
    hint: 'Export plain numbers; the unit belongs into the line of names, as in "acc_x [m/s2]".',
    fits: (lines) =>
      mostly(lines, (line) => {
        const units = cellsOf(line).filter((cell) => readUnit(NUMBER_WITH_UNIT.exec(cell)?.[1] ?? ''));
        return units.length >= 3;
      }),
  },
  {
    found: 'one value a row, its channel beside it',
    hint: 'Export one row an instant with a column for every axis.',
    fits: (lines) =>
      mostly(lines, (line) =>
        cellsOf(line).some((cell) => /\p{L}/u.test(cell) && nameColumn(0, cell, '').axis !== null),
      ),
  },
];

const ON_ITS_SIDE = {
  found: 'a table on its side, with a row for every quantity',
  hint: 'Turn it (transpose): one row an instant, one column for every axis.',
};

/** The refusal of a file that holds no table of numbers, with what it seems to be. */
export function noTable(lines: string[], file: string, columns = 0): FaultError {
  const filled = lines.map((line) => line.slice(0, LINE_LOOKED_AT).trim()).filter((line) => line !== '');
  const likeness =
    columns > filled.length
      ? ON_ITS_SIDE
      : LIKENESSES.find(({ fits }) => filled.length > 0 && fits(filled.length > 3 ? filled.slice(1, 200) : filled));
  const begins = `it begins with "${(filled[0] ?? '').slice(0, 80)}"`;
  return new FaultError({
    code: 'NOT_A_RECORDING',
    message: `${file}: found ${likeness ? `${likeness.found} (${begins})` : `no table of numbers (${begins})`}; expected a table: rows with time and at least three columns of acceleration. The file was refused.`,
    where: { file },
    hint: likeness?.hint ?? 'Check that this is the CSV export of a sensor recording.',
  });
}
