import { because } from '../../../shared/reason.ts';
import { type LayoutCorrection, LONGEST_HEADER } from '../../../shared/schemas/layout.ts';
import type { Evidence } from '../columns/evidence.ts';
import { LayoutQuestion } from '../columns/layout-question.ts';
import { inBrackets, noTable, numbersTouch, severalACell } from './no-table.ts';
import { isUnit } from '../columns/units.ts';
import { isDateOrClock, isNumber, MISSING_VALUES, splitCells } from './cells.ts';

/** How the text of a file divides into a preamble, names, units and rows. */
export interface TableShape {
  delimiter: string;
  decimal_mark: '.' | ',';
  /** Lines above the header or the first row; metadata may hide there. */
  preamble: string[];
  /** Column names; empty without a header row. A group line above is joined in front. */
  header: string[];
  /** Units of the row under the header; empty where there is none. */
  units: string[];
  /** 0-based index of the first row of numbers. */
  first_row_line: number;
  column_count: number;
  /** A line of names that fits the columns in no way, and was left out. */
  misfit: { line: number; names: number } | null;
}

const DELIMITERS = [',', ';', '\t', '|', ' '];
const DELIMITER_WORDS: Record<string, 'comma' | 'semicolon' | 'tab' | 'bar' | 'blanks' | undefined> = {
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  '|': 'bar',
  ' ': 'blanks',
};
const LINES_AT_ONCE = 400;
/** A table on its side has at least this many columns: one a sample. */
const LEAST_ON_ITS_SIDE = 50;
/** Units, axes, quantities, places: lines of names one above the other. */
const MOST_NAME_LINES = 4;
const LINES_LOOKED_AT = 20_000;
const FREE_LINES = 200;
const FREE_LINE_CHARACTERS = 400;

interface Candidate {
  delimiter: string;
  decimal_mark: '.' | ',';
  column_count: number;
  first_row_line: number;
  score: number;
  /** True where every row ends with a delimiter. */
  open_ended: boolean;
}

/**
 * Finds delimiter, decimal mark, preamble, header and units row from the first lines.
 * @param lines the first lines of the file, without their ends
 * @throws FaultError NOT_A_RECORDING when no table of at least three columns of numbers is there; LayoutQuestion when the
 *   comma may be delimiter as well as decimal mark
 */
export function sniffTable(
  lines: string[],
  file: string,
  told: LayoutCorrection['text'],
  evidence: Evidence[],
): TableShape {
  // Most files show their table at once; only a long preamble makes it worth to look further.
  const near = lines.slice(0, Math.max(LINES_AT_ONCE, (told?.rows_from_line ?? 0) + LINES_AT_ONCE));
  const looked =
    near.length < lines.length && !runsOn(near, chooseDialect(near, told)) ? lines.slice(0, LINES_LOOKED_AT) : near;
  const best = chooseDialect(looked, told);
  if (!best || onItsSide(looked, best)) throw noTable(lines, file, best?.column_count);
  if (inBrackets(looked)) throw noTable(lines, file, 0, 'brackets');
  if (best.delimiter === ' ' && numbersTouch(looked)) throw noTable(lines, file, 0, 'touching');
  if (best.delimiter === ',' && severalACell(looked)) throw noTable(lines, file, 0, 'several_a_cell');
  let names = findNames(looked, best, told);
  if (names.header.length === 0 && best.open_ended) {
    // The last column may be empty in every row and still have a name.
    const wider = { ...best, column_count: best.column_count + 1 };
    const named = findNames(looked, wider, told);
    if (named.header.length > 0) {
      names = named;
      best.column_count++;
    }
  }
  if (!told?.delimiter || !told.decimal_mark) refuseDoubleComma(looked, best, names.header, file);
  const mark = DELIMITER_WORDS[best.delimiter];
  evidence.push(
    {
      about: 'delimiter',
      decided: mark ? because('took_mark', { mark }) : because('took_text', { text: best.delimiter }),
      because: told?.delimiter ? because('by_layout') : because('by_even_split', { columns: best.column_count }),
      source: told?.delimiter ? 'told' : 'measured',
    },
    {
      about: 'decimal mark',
      decided: because('took_mark', { mark: best.decimal_mark === ',' ? 'comma' : 'point' }),
      because: told?.decimal_mark ? because('by_layout') : because('by_numbers'),
      source: told?.decimal_mark ? 'told' : 'measured',
    },
  );
  const misfit = names.header.length === 0 && told?.header_row !== false ? misfitNames(looked, best) : null;
  if (names.header.length === 0) {
    evidence.push({
      about: 'header',
      decided: because('took_none'),
      because: misfit ? because('by_misfit_names', { ...misfit, columns: best.column_count }) : because('by_no_names'),
      source: 'measured',
    });
  }
  return {
    delimiter: best.delimiter,
    decimal_mark: best.decimal_mark,
    preamble: freeLines(looked.slice(0, names.top)),
    header: names.header,
    units: names.units,
    first_row_line: best.first_row_line,
    column_count: best.column_count,
    misfit,
  };
}

/** What free lines above a table may say stands near its top or right above the rows, in short lines. */
function freeLines(lines: string[]): string[] {
  const filled = lines.filter((line) => line.trim() !== '');
  const looked =
    filled.length > 2 * FREE_LINES ? [...filled.slice(0, FREE_LINES), ...filled.slice(-FREE_LINES)] : filled;
  return looked.map((line) => line.slice(0, FREE_LINE_CHARACTERS));
}

/** True for a table with a row for every quantity: few lines, many columns, each line begun by a word. */
function onItsSide(lines: string[], { column_count, delimiter }: Candidate): boolean {
  if (column_count < LEAST_ON_ITS_SIDE) return false;
  const filled = lines.filter((line) => line.trim() !== '');
  if (filled.length * 2 > column_count) return false;
  // Nobody records twenty samples of hundreds of channels.
  if (filled.length <= 20 && column_count >= 200) return true;
  const named = filled.filter((line) => /\p{L}/u.test(line.slice(0, line.indexOf(delimiter))));
  return named.length >= 3 && named.length > 0.6 * filled.length;
}

/** A line right above the rows that looks like names, but more or fewer than there are columns. */
function misfitNames(lines: string[], table: Candidate): TableShape['misfit'] {
  for (let line = table.first_row_line - 1; line >= 0; line--) {
    if (lines[line].trim() === '') continue;
    if (lines[line].length > LONGEST_HEADER) return null;
    const cells = splitCells(lines[line], table.delimiter);
    const words = cells.filter((cell) => /\p{L}/u.test(cell)).length;
    return words >= 3 && words > 0.6 * cells.length ? { line: line + 1, names: cells.length } : null;
  }
  return null;
}

/** True where the table goes on to the last line: it is no short table of settings above the real one. */
function runsOn(lines: string[], table: Candidate | null): boolean {
  if (!table) return false;
  const filled = lines.filter((line) => line.trim() !== '');
  const last = filled.slice(-5).map((line) => splitCells(line, table.delimiter).filter((cell) => cell !== '').length);
  return last.filter((count) => count >= table.column_count - 1).length >= 3;
}

function chooseDialect(lines: string[], told: LayoutCorrection['text']): Candidate | null {
  let best: Candidate | null = null;
  for (const delimiter of told?.delimiter ? [told.delimiter] : DELIMITERS) {
    // Blanks also stand inside dates and names: they part columns only where no sign of its own does.
    if (delimiter === ' ' && best && best.delimiter !== ',') break;
    for (const mark of told?.decimal_mark ? [told.decimal_mark] : (['.', ','] as const)) {
      // Comma for both can be told apart only where quotes hold the cells together.
      if (mark === ',' && delimiter === ',' && !lines.slice(-20).some((line) => line.includes('"'))) continue;
      const candidate = tryDialect(lines, delimiter, mark, (told?.rows_from_line ?? 1) - 1);
      if (candidate && (!best || candidate.score > best.score * 1.001)) best = candidate;
    }
  }
  return best;
}

/** Cells of a line that numbers, times, or the word for a side may stand in. */
function valueCells(cells: string[], mark: string): number {
  let count = 0;
  for (const cell of cells) {
    if (isNumber(cell, mark) || isDateOrClock(cell) || (cell !== '' && MISSING_VALUES.includes(cell.toLowerCase())))
      count++;
  }
  return count;
}

function tryDialect(lines: string[], delimiter: string, mark: '.' | ',', from: number): Candidate | null {
  const counts = new Map<number, { rows: number; values: number; openEnds: number }>();
  const perLine = lines.map((line, at) => {
    if (at < from || line.trim() === '') return null;
    const cells = splitCells(line, delimiter);
    if (countsColumns(cells)) return null;
    const values = valueCells(cells, mark);
    if (values < 3 || values < 0.5 * cells.filter((cell) => cell !== '').length) return null;
    const entry = counts.get(cells.length) ?? { rows: 0, values: 0, openEnds: 0 };
    entry.rows++;
    if (cells[cells.length - 1] === '') entry.openEnds++;
    entry.values += values;
    counts.set(cells.length, entry);
    return cells.length;
  });
  let column_count = 0;
  let score = 0;
  for (const [columns, entry] of counts) {
    if (entry.values > score) {
      score = entry.values;
      column_count = columns;
    }
  }
  if (column_count < 3) return null;
  // The first row is followed by more of its kind: a line of numbers in a preamble is not.
  const filled = Array.from(lines.keys()).filter((line) => lines[line].trim() !== '');
  const first = filled.findIndex((line, index) => {
    if (perLine[line] !== column_count) return false;
    const next = filled.slice(index + 1, index + 6);
    return next.filter((other) => perLine[other] === column_count).length >= Math.min(3, next.length);
  });
  if (first < 0) return null;
  const first_row_line =
    filled[withRemarks(filled, first, (at) => splitCells(lines[at], delimiter), column_count, mark)];
  // A delimiter at the end of every row opens no column.
  const { rows, openEnds } = counts.get(column_count)!;
  const open_ended = openEnds === rows;
  const columns = open_ended ? column_count - 1 : column_count;
  return { delimiter, decimal_mark: mark, column_count: columns, first_row_line, score, open_ended };
}

/** Rows above the first one that go on behind its columns, as where remarks were written beside them: they are rows and will be told. */
function withRemarks(
  filled: number[],
  first: number,
  cellsOf: (line: number) => string[],
  column_count: number,
  mark: string,
): number {
  let top = first;
  while (top > 0) {
    const cells = cellsOf(filled[top - 1]);
    const own = cells.slice(0, column_count);
    if (cells.length <= column_count || valueCells(own, mark) < own.length) break;
    top--;
  }
  return top;
}

/** Names and units above the rows: as told, else where the lines look like them. */
function findNames(
  lines: string[],
  table: Candidate,
  told: LayoutCorrection['text'],
): { header: string[]; units: string[]; top: number } {
  if (told?.header_row === false) return { header: [], units: [], top: table.first_row_line };
  const toldLines = told?.header_row ? (told.units_row ? 2 : 1) : 0;
  const above: { line: number; cells: string[] }[] = [];
  for (let line = table.first_row_line - 1; line >= 0 && above.length < MOST_NAME_LINES; line--) {
    if (lines[line].trim() === '') continue;
    if (lines[line].length > LONGEST_HEADER) break;
    const cells = splitCells(lines[line].replace(/^\s*(#+|%+|\/\/)\s*/, ''), table.delimiter);
    if (cells[cells.length - 1] === '' && cells.length === table.column_count + 1) cells.pop();
    // A counter in front of the rows often has no name.
    if (cells.length === table.column_count - 1 && above.length === 0 && countsRows(lines, table)) cells.unshift('');
    // A decimal comma that parts columns, too, cuts a clock time from its fraction, which then has no name of its own.
    const cut = cells.length === table.column_count - 1 && above.length === 0 ? clockCutAt(lines, table) : -1;
    if (cut >= 0) cells.splice(cut + 1, 0, '');
    if (cells.length !== table.column_count) break;
    if (countsColumns(cells)) continue;
    if (above.length >= toldLines && valueCells(cells, table.decimal_mark) > 0.4 * cells.length) break;
    above.push({ line, cells });
  }
  if (above.length === 0) return { header: [], units: [], top: table.first_row_line };
  let units: string[] = [];
  if (above.length > 1 && (told?.units_row ?? (looksLikeUnits(above[0].cells) || repeatsUnderNames(above))))
    units = above.shift()!.cells;
  const header = [...above[0].cells];
  let top = above[0].line;
  // Titles over several columns each: quantity over axes, and the sensor's place over both.
  for (const group of above.slice(1)) {
    if (new Set(header.map((name) => name.toLowerCase())).size === header.length) break;
    let current = '';
    for (let i = 0; i < header.length; i++) {
      if (group.cells[i] !== '') current = group.cells[i];
      header[i] = `${current} ${header[i]}`.trim();
    }
    top = group.line;
  }
  return { header, units, top };
}

/** A line that numbers the columns: 1, 2, 3, ... */
function countsColumns(cells: string[]): boolean {
  const first = Number(cells[0]);
  return cells.length > 3 && (first === 0 || first === 1) && cells.every((cell, i) => cell === String(first + i));
}

/** The column of clock times to the second behind which one of digits alone stands, as many in every row; -1 where none does. */
function clockCutAt(lines: string[], table: Candidate): number {
  const rows = lines
    .slice(table.first_row_line, table.first_row_line + 40)
    .filter((line) => line.trim() !== '')
    .map((line) => splitCells(line, table.delimiter));
  const digits = (cell = '') => (/^\d{1,9}$/.test(cell) ? cell.length : 0);
  return rows[0].findIndex((_cell, i) =>
    rows.every(
      (row) => /\d{1,2}:\d{2}:\d{2}$/.test(row[i] ?? '') && digits(row[i + 1]) === Math.max(1, digits(rows[0][i + 1])),
    ),
  );
}

/** True where the first cell of the first rows grows by one. */
function countsRows(lines: string[], table: Candidate): boolean {
  const rows = lines.slice(table.first_row_line, table.first_row_line + 40).filter((line) => line.trim() !== '');
  const counts = rows.map((line) => Number(splitCells(line, table.delimiter)[0]));
  return counts.length > 3 && counts.every((count, i) => i === 0 || count === counts[i - 1] + 1);
}

/** A row that says the same under several names, each of which says something else: units that nobody here knows. */
function repeatsUnderNames([row, names]: { cells: string[] }[]): boolean {
  const said = row.cells.filter((cell) => cell !== '' && cell !== '-');
  const named = names.cells.filter((cell) => cell !== '');
  return (
    new Set(said).size <= said.length / 2 &&
    named.length >= row.cells.length - 1 &&
    new Set(named).size === named.length
  );
}

function looksLikeUnits(cells: string[]): boolean {
  const told = cells.filter((cell) => cell !== '' && cell !== '-');
  return told.length > 0 && told.filter((cell) => isUnit(cell)).length >= 0.6 * told.length;
}

/** Comma as delimiter and decimal mark at once cannot be undone for sure. */
function refuseDoubleComma(lines: string[], table: Candidate, header: string[], file: string): void {
  if (table.delimiter !== ',' || table.decimal_mark === ',') return;
  const rows = lines.slice(table.first_row_line, table.first_row_line + 200).map((line) => splitCells(line, ','));
  const whole = rows.flat().every((cell) => /^[+-]?\d*$/.test(cell));
  if (!whole) return;
  const padded = rows.flat().filter((cell) => /^0\d/.test(cell)).length;
  const above = lines
    .slice(0, table.first_row_line)
    .reverse()
    .find((line) => line.trim() !== '');
  const named = header.length === 0 && above ? splitCells(above, ',').length : table.column_count;
  const halved = named >= 3 && named < table.column_count && named >= table.column_count / 2;
  if (padded > 0.02 * rows.flat().length || halved) {
    throw new LayoutQuestion(file, {
      about: 'decimal mark',
      found: because('found_double_comma', { row: lines[table.first_row_line].slice(0, 60) }),
      choices: [],
      hint: because('do_export_again'),
    });
  }
}
