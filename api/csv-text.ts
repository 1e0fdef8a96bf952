import Papa from 'papaparse';

/**
 * Beginnings of a cell that a spreadsheet takes for a formula and runs: `=`, `@`, a tab or a carriage return, their wide forms, and a sign
 * that begins no number. (Common practice; a plain number keeps its sign.)
 */
const RUNS = /^(?:[=@\t\r＝＠＋－]|[+-](?!\d+(?:[.,]\d+)?(?:[eE][+-]?\d+)?$|\.\d+$|$))/;
/** What the dictionary of an export says about it. */
export const NEUTRALISED =
  "A text that a spreadsheet would run (it begins with =, @, a tab, or + or - without a number behind) has an apostrophe (') in front.";

/** A text as a cell of a CSV file: as it is, or with an apostrophe in front where a spreadsheet would run it. */
export function harmlessText(text: string): string {
  return RUNS.test(text) ? `'${text}` : text;
}

/**
 * Rows as CSV text: comma, LF, header row, the last line ended too.
 * @param rows objects, whose keys are the columns; or cells under `fields`
 */
export function csvText(rows: object[] | { fields: string[]; data: object[] }): string {
  return `${Papa.unparse(rows as object[], { newline: '\n', escapeFormulae: RUNS })}\n`;
}
