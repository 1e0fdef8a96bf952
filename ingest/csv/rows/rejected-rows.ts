import { FaultError, fault } from '../../../shared/fault.ts';
import type { CodedReason, Reason } from '../../../shared/reason.ts';

/** A row that was set aside: where, what was found, what was expected, and the row itself. */
export interface RejectedRow {
  line: number;
  /** Name of the column, null where the whole row is at fault. */
  column: string | null;
  /** A cell as it is written, or in words. */
  found: Reason;
  expected: CodedReason;
  text: string;
}

/** Rows set aside are all counted; this many are kept with their text. */
const MOST_KEPT = 10_000;
/** A file is refused when more than this share of its rows was set aside: then it was misread, or is damaged too badly. */
export const MOST_REJECTED_SHARE = 0.05;
/** Fewer than this many rows set aside never refuse a file by themselves. */
const FEWEST_TO_REFUSE = 5;
const LONGEST_TEXT = 400;

/** Collects the rows that were set aside, and holds the rule for refusing a file because of them. */
export class RejectedRows {
  readonly kept: RejectedRow[] = [];
  count = 0;

  constructor(private readonly file: string) {}

  add(
    line: number,
    column: string | null,
    found: Reason,
    expected: CodedReason,
    cells: string[],
    delimiter: string,
  ): void {
    this.count++;
    if (this.kept.length >= MOST_KEPT) return;
    this.kept.push({
      line,
      column,
      found,
      expected,
      text: cells
        .map((cell) => cell.trim())
        .join(delimiter)
        .slice(0, LONGEST_TEXT),
    });
  }

  /** Sets a row aside whose text is no longer at hand. */
  addAt(line: number, column: string, found: CodedReason, expected: CodedReason): void {
    this.count++;
    if (this.kept.length < MOST_KEPT) this.kept.push({ line, column, found, expected, text: '' });
  }

  /** Acceleration and angular rate that stand one below the other cannot be put together in bounded memory. */
  streamsApart(): FaultError {
    return new FaultError(fault('ROWS_BY_QUANTITY.apart', { file: this.file }, { file: this.file }));
  }

  /** The same rule while reading, once it is plain that no rest of the file can mend it. */
  checkEarly(rowsKept: number): void {
    if (this.count > 2000 && this.count > rowsKept) this.check(rowsKept);
  }

  /**
   * The rule: more than 5 % of the rows (and at least 5 of them) set aside refuses the file.
   * @param rowsKept rows that were read well
   * @throws FaultError TOO_MANY_BAD_ROWS
   */
  check(rowsKept: number): void {
    if (this.count < FEWEST_TO_REFUSE || this.count <= MOST_REJECTED_SHARE * (this.count + rowsKept)) return;
    const first = this.kept[0];
    // A line of words only, where rows were expected: names of another table.
    const another =
      first.text !== '' && first.text.split(/[,;\t| ]+/).filter((cell) => /^[+-]?\d/.test(cell)).length === 0;
    const { line, column, found, expected } = first;
    const values = {
      file: this.file,
      count: this.count,
      of: this.count + rowsKept,
      most_percent: 100 * MOST_REJECTED_SHARE,
      ...{ line, column, found, expected },
    };
    const where = { file: this.file, line, column, rows_set_aside: this.count };
    throw new FaultError(
      another
        ? fault('TOO_MANY_BAD_ROWS.another_table', { ...values, text: first.text.slice(0, 60) }, where)
        : fault('TOO_MANY_BAD_ROWS', values, where),
    );
  }
}
