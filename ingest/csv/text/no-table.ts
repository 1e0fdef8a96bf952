import { FaultError, fault } from '../../../shared/fault.ts';
import { nameColumn } from '../columns/name-column.ts';
import { readUnit } from '../columns/units.ts';

interface Likeness {
  /** The last word of the fault NOT_A_RECORDING's sentence. */
  like: 'json' | 'markup' | 'named_values' | 'brackets' | 'units' | 'channel_beside';
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
    like: 'json',
    fits: (lines) => /^[[{]/.test(lines[0]),
  },
  {
    like: 'markup',
    fits: (lines) => /^<[!?\w]/.test(lines[0]),
  },
  {
    like: 'named_values',
    fits: (lines) => mostly(lines, (line) => (line.match(/[\p{L}\w]\s{0,3}[=:]\s{0,3}[+-]?\d/gu) ?? []).length >= 3),
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
  {
    like: 'channel_beside',
    fits: (lines) =>
      mostly(lines, (line) =>
        cellsOf(line).some((cell) => /\p{L}/u.test(cell) && nameColumn(0, cell, '').axis !== null),
      ),
  },
];

/** The refusal of a file that holds no table of numbers, with what it seems to be. */
export function noTable(lines: string[], file: string, columns = 0): FaultError {
  const filled = lines.map((line) => line.slice(0, LINE_LOOKED_AT).trim()).filter((line) => line !== '');
  const like =
    columns > filled.length
      ? 'on_its_side'
      : LIKENESSES.find(({ fits }) => filled.length > 0 && fits(filled.length > 3 ? filled.slice(1, 200) : filled))
          ?.like;
  const begins = (filled[0] ?? '').slice(0, 80);
  return new FaultError(fault(like ? `NOT_A_RECORDING.${like}` : 'NOT_A_RECORDING', { file, begins }, { file }));
}
