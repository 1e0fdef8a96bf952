import { because } from '../../../shared/reason.ts';
import type { LayoutCorrection } from '../../../shared/schemas/layout.ts';
import { PERSON_WORDS, TRIAL_WORDS } from '../columns/column-words.ts';
import { foldedWords } from '../columns/fold-text.ts';
import { LayoutQuestion } from '../columns/layout-question.ts';
import type { ColumnName } from '../columns/name-column.ts';
import { sideInWords } from '../columns/side-in-words.ts';
import { splitCells, toNumber } from '../text/cells.ts';
import type { TableShape } from '../text/sniff-table.ts';

/** Rows looked at, spread over the head: people follow each other after thousands of rows. */
const ROWS_LOOKED_AT = 3000;
/** A column of more values than this names no people. */
const MOST_PEOPLE = 60;

/**
 * Rows of several people, or of recordings one below the other, are asked about: one of them is read, never all as if they were one.
 * Told by a column that is named so, or by one whose values change just where the clock starts again.
 * @param lines first lines of the file
 * @throws LayoutQuestion with every person as a choice
 */
export function refuseSeveralPeople(names: ColumnName[], lines: string[], shape: TableShape, file: string): void {
  const candidates = names.filter(
    ({ axis, kind }) => axis === null && (kind === null || kind === 'side' || kind === 'counter'),
  );
  if (candidates.length === 0) return;
  const rows = spreadRows(lines, shape);
  const clocks = names.filter(({ kind }) => kind === 'time').map(({ index }) => index);
  for (const { index, name } of candidates) {
    const cells = rows.map((row) => row[index] ?? '').filter((cell) => cell !== name);
    const values = [...new Set(cells)].filter((value) => value !== '');
    if (values.length < 2 || values.length > MOST_PEOPLE) continue;
    if (values.every((value) => sideInWords(value) !== 'unknown')) continue;
    const words = foldedWords(name);
    const people = words.some((word) => PERSON_WORDS.includes(word));
    if (!people && (words.some((word) => TRIAL_WORDS.includes(word)) || !startsAnew(rows, index, clocks, shape)))
      continue;
    throw new LayoutQuestion(file, {
      about: 'rows',
      found: because('found_several_people', { name, values }),
      choices: values.map((value) => ({
        label: because('choice_rows_of', { value }),
        correction: { rows_of: { column: index, values: [value] } },
      })),
      hint: because('do_rows_of', { example: JSON.stringify({ rows_of: { column: name, values: [values[0]] } }) }),
    });
  }
}

/** The lines without the rows of others, so that the layout is found from those that will be read. */
export function linesOf(
  lines: string[],
  shape: TableShape,
  rows_of: LayoutCorrection['rows_of'],
  columnOf: (reference: number | string) => number,
): string[] {
  if (!rows_of) return lines;
  const column = columnOf(rows_of.column);
  return lines.filter(
    (line, at) => at < shape.first_row_line || rows_of.values.includes(splitCells(line, shape.delimiter)[column] ?? ''),
  );
}

function spreadRows(lines: string[], { first_row_line, delimiter, column_count }: TableShape): string[][] {
  const step = Math.max(1, Math.floor((lines.length - first_row_line) / ROWS_LOOKED_AT));
  const rows: string[][] = [];
  for (let at = first_row_line; at < lines.length; at += step) {
    const cells = splitCells(lines[at], delimiter);
    if (cells.length >= column_count) rows.push(cells);
  }
  return rows;
}

/** True where every value stands in one stretch of rows, and a clock falls back where the next begins and nowhere else. */
function startsAnew(rows: string[][], column: number, clocks: number[], { decimal_mark }: TableShape): boolean {
  const changes = rows.flatMap((row, i) => (i > 0 && row[column] !== rows[i - 1][column] ? [i] : []));
  const values = new Set(rows.map((row) => row[column]));
  if (changes.length !== values.size - 1) return false;
  return clocks.some((clock) => {
    const times = rows.map((row) => toNumber(row[clock], decimal_mark));
    const back = times.flatMap((time, i) => (i > 0 && time < times[i - 1] ? [i] : []));
    return back.length === changes.length && back.every((row, i) => row === changes[i]);
  });
}
