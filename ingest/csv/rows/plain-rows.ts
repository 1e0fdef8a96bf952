import type { ColumnPlan, RowBatch } from './row-batch.ts';

const LF = 10;
const CR = 13;
const BLANK = 32;
const QUOTE = 34;
const PLUS = 43;
const MINUS = 45;
const ZERO = 48;
/** Sixteen digits may pass 2^53, from where integers are no longer exact. */
const MOST_DIGITS = 16;
const LEAST_INEXACT = 2 ** 53;
const POWERS = Float64Array.from({ length: MOST_DIGITS + 1 }, (_, power) => Number(`1e${power}`));
/** Where more than this share of a block's lines is not plain, the general decoder is the faster one. */
const MOST_ODD_SHARE = 0.3;

/**
 * Reads rows of plain decimal numbers straight from the bytes. It takes only what it is sure of: digits, a sign, one decimal
 * mark, at most 16 digits, the right number of columns. Every other line goes to the general decoder, so both give the same rows.
 * A number is an integer below 2^53 divided by a power of ten up to 10^16, both exact, so the quotient is the nearest double: bit
 * for bit what Number() gives (Clinger 1990, 'How to read floating point numbers accurately', from memory).
 */
export class PlainRows {
  /** Slot of each column: -1 unused, 0 time, 1.. channels. */
  private readonly slots: Int16Array;
  private readonly delimiter: number;
  private readonly mark: number;
  private readonly columns: number;
  private readonly values: Float64Array;
  /** False once a block was mostly odd lines. */
  worthwhile: boolean;

  constructor(plan: ColumnPlan) {
    const { text, time } = plan;
    this.columns = plan.column_count;
    this.delimiter = text.delimiter.charCodeAt(0);
    this.mark = text.decimal_mark.charCodeAt(0);
    this.slots = new Int16Array(this.columns).fill(-1);
    plan.channels.forEach((column, channel) => {
      this.slots[column] = channel + 1;
    });
    const timed = time.kind === 'number';
    if (timed) this.slots[plan.time_columns[0]] = 0;
    this.values = new Float64Array(plan.channels.length + 1);
    const shared = timed && plan.channels.includes(plan.time_columns[0]);
    this.worthwhile =
      (timed || time.kind === 'rows') &&
      !time.fraction &&
      !time.carried &&
      !shared &&
      plan.side_column === null &&
      plan.quantity_column === null &&
      plan.rows_of === null &&
      !plan.rows_alternate &&
      this.delimiter !== BLANK &&
      this.delimiter < 128;
  }

  /**
   * @param block bytes of whole lines
   * @param batch empty, with room for a row each `column_count` bytes
   * @param line 1-based number of the first line
   * @param odd takes a line that is not plain
   * @returns the number of the line after the block
   */
  decode(
    block: Uint8Array,
    batch: RowBatch,
    line: number,
    odd: (from: number, to: number, line: number) => void,
  ): number {
    const first = line;
    let oddLines = 0;
    let at = 0;
    while (at < block.length) {
      const end = this.row(block, at, batch, line);
      if (end >= 0) at = end;
      else {
        const stop = lineEnd(block, at);
        oddLines++;
        odd(at, stop, line);
        at = stop < block.length && block[stop] === CR && block[stop + 1] === LF ? stop + 2 : stop + 1;
      }
      line++;
    }
    if (oddLines > MOST_ODD_SHARE * (line - first)) this.worthwhile = false;
    return line;
  }

  /** @returns where the next line starts, or -1 when this one is not plain */
  private row(block: Uint8Array, start: number, batch: RowBatch, line: number): number {
    const { slots, columns, delimiter, mark, values } = this;
    const length = block.length;
    let at = start;
    let measured = 0;
    for (let column = 0; column < columns; column++) {
      const slot = slots[column];
      let byte = at < length ? block[at] : LF;
      if (slot < 0) {
        while (byte !== delimiter && byte !== LF && byte !== CR) {
          if (byte === QUOTE) return -1;
          byte = ++at < length ? block[at] : LF;
        }
      } else {
        while (byte === BLANK) byte = ++at < length ? block[at] : LF;
        const negative = byte === MINUS;
        if (negative || byte === PLUS) byte = ++at < length ? block[at] : LF;
        let mantissa = 0;
        let digits = 0;
        let digit = byte - ZERO;
        while (digit >= 0 && digit <= 9) {
          mantissa = mantissa * 10 + digit;
          digits++;
          byte = ++at < length ? block[at] : LF;
          digit = byte - ZERO;
        }
        let decimals = 0;
        if (byte === mark) {
          byte = ++at < length ? block[at] : LF;
          digit = byte - ZERO;
          while (digit >= 0 && digit <= 9) {
            mantissa = mantissa * 10 + digit;
            decimals++;
            byte = ++at < length ? block[at] : LF;
            digit = byte - ZERO;
          }
          digits += decimals;
        }
        while (byte === BLANK) byte = ++at < length ? block[at] : LF;
        if (digits === 0 || digits > MOST_DIGITS || mantissa >= LEAST_INEXACT) return -1;
        const value = decimals === 0 ? mantissa : mantissa / POWERS[decimals];
        values[slot] = negative ? -value : value;
        measured++;
      }
      if (column < columns - 1) {
        if (byte !== delimiter) return -1;
        at++;
      } else if (byte === delimiter) {
        byte = ++at < length ? block[at] : LF;
        if (byte !== LF && byte !== CR) return -1;
      } else if (byte !== LF && byte !== CR) return -1;
    }
    if (measured === 0) return -1;
    const row = batch.rows++;
    batch.lines[row] = line;
    batch.time[row] = values[0];
    const { channels } = batch;
    for (let channel = 0; channel < channels.length; channel++) channels[channel][row] = values[channel + 1];
    if (at < length && block[at] === CR && at + 1 < length && block[at + 1] === LF) at++;
    return at + 1;
  }
}

function lineEnd(block: Uint8Array, from: number): number {
  let at = from;
  while (at < block.length && block[at] !== LF && block[at] !== CR) at++;
  return at;
}
