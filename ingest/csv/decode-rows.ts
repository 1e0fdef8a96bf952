import Papa from 'papaparse';
import type { Layout } from '../../shared/schemas/layout.ts';
import { MISSING_VALUES, splitCells, toNumber } from './cells.ts';
import { PlainRows } from './plain-rows.ts';
import type { RejectedRows } from './rejected-rows.ts';
import { timeReader } from './time-cells.ts';

/** Columns of a layout by position, as the decoder needs them. */
export interface ColumnPlan {
  column_count: number;
  names: string[];
  /** Time columns, then all channel columns and the counter, each once; the order of `RowBatch.numbers` after time. */
  channels: number[];
  time: Layout['time'];
  time_columns: number[];
  side_column: number | null;
  side_values: (string | null)[];
  text: Layout['text'];
}

/** Rows of one block, decoded. Only the first `rows` values of every array count. */
export interface RowBatch {
  rows: number;
  /** 1-based line of the file, a row each. */
  lines: Float64Array;
  /** Raw time in the layout's unit, or seconds where time is text; empty where there is none. */
  time: Float64Array;
  /** One array a channel of the plan, raw; NaN where missing. */
  channels: Float64Array[];
  /** Which sensor of the layout a row belongs to; all 0 without a side column. */
  sensor: Uint8Array;
}

/**
 * Decodes blocks of whole lines: lines of plain numbers straight from the bytes (see plain-rows.ts), all others with papaparse, told everything explicitly (delimiter, newline, no header, no typing): its own
 * guesses are wrong on decimal commas, mixed newlines and preambles. A row is a line, always: a line with quotes is parsed on
 * its own, so an unclosed quote spoils one row and not the rest of the file.
 */
export class RowDecoder {
  private line: number;
  private readonly textDecoder = new TextDecoder('utf-8');
  private readonly missing: Set<string>;
  private readonly readTime: (cells: string[]) => number;
  private readonly plainRows: PlainRows;
  private batch: RowBatch;

  /** @param firstLine 1-based line number of the first line that `decode` will see */
  constructor(
    private readonly plan: ColumnPlan,
    private readonly rejected: RejectedRows,
    firstLine: number,
    /** For tests: nothing takes the short way. */
    papaparseOnly = false,
  ) {
    this.line = firstLine;
    this.missing = new Set([...MISSING_VALUES, ...plan.text.missing_values.map((value) => value.toLowerCase())]);
    this.readTime = timeReader(plan.time, plan.time_columns, plan.text.decimal_mark);
    this.plainRows = new PlainRows(plan);
    if (papaparseOnly) this.plainRows.worthwhile = false;
    this.batch = emptyBatch(0, plan.channels.length);
  }

  /** 1-based number of the line that comes next. */
  get nextLine(): number {
    return this.line;
  }

  /**
   * @param block UTF-8 bytes of whole lines
   * @returns the rows; good until the next call, which uses the same memory
   */
  decode(block: Uint8Array): RowBatch {
    if (!this.plainRows.worthwhile) return this.decodeText(block);
    const batch = this.emptied(Math.ceil(block.length / Math.max(1, this.plan.column_count)) + 1);
    this.line = this.plainRows.decode(block, batch, this.line, (from, to, line) => {
      const [cells = ['']] = this.split(this.textDecoder.decode(block.subarray(from, to)));
      this.take(cells, batch, line);
    });
    return batch;
  }

  private decodeText(block: Uint8Array): RowBatch {
    let text = this.textDecoder.decode(block);
    if (text.includes('\r')) text = text.replace(/\r\n?/g, '\n');
    if (text.endsWith('\n')) text = text.slice(0, -1);
    const rows = this.split(text);
    const batch = this.emptied(rows.length);
    for (const cells of rows) this.take(cells, batch, this.line++);
    return batch;
  }

  private emptied(capacity: number): RowBatch {
    if (this.batch.lines.length < capacity) this.batch = emptyBatch(capacity, this.plan.channels.length);
    this.batch.rows = 0;
    return this.batch;
  }

  private split(text: string): string[][] {
    const { delimiter } = this.plan.text;
    if (text.includes('"')) return text.split('\n').map((line) => splitCells(line, delimiter));
    const plain = delimiter === ' ' ? text.replace(/[ \t]+/g, ' ').replace(/^ | $/gm, '') : text;
    return Papa.parse<string[]>(plain, {
      delimiter,
      newline: '\n',
      header: false,
      dynamicTyping: false,
      fastMode: true,
    }).data;
  }

  private take(cells: string[], batch: RowBatch, line: number): void {
    const { plan } = this;
    const count = cells.length;
    if (count !== plan.column_count && !(count === plan.column_count + 1 && cells[count - 1].trim() === '')) {
      if (count === 1 && cells[0].trim() === '') return;
      this.rejected.add(line, null, `${count} columns`, `${plan.column_count} columns`, cells, plan.text.delimiter);
      return;
    }
    const row = batch.rows;
    if (plan.side_column !== null) {
      const sensor = plan.side_values.indexOf(cells[plan.side_column].trim());
      if (sensor < 0) {
        this.reject(line, plan.side_column, cells, `one of ${plan.side_values.join(', ')}`);
        return;
      }
      batch.sensor[row] = sensor;
    }
    if (plan.time_columns.length > 0) {
      const time = this.readTime(cells);
      if (!Number.isFinite(time)) {
        this.reject(line, plan.time_columns[0], cells, 'a time');
        return;
      }
      batch.time[row] = time;
    }
    let measured = 0;
    for (let channel = 0; channel < plan.channels.length; channel++) {
      const cell = cells[plan.channels[channel]];
      const value = toNumber(cell, this.plan.text.decimal_mark);
      if (Number.isNaN(value)) {
        if (!this.missing.has(cell.trim().toLowerCase())) {
          this.reject(line, plan.channels[channel], cells, 'a number');
          return;
        }
      } else measured++;
      batch.channels[channel][row] = value;
    }
    if (measured === 0) {
      this.reject(line, plan.channels[0], cells, 'at least one measured value');
      return;
    }
    batch.lines[row] = line;
    batch.rows++;
  }

  private reject(line: number, column: number, cells: string[], expected: string): void {
    const name = this.plan.names[column] || `column ${column + 1}`;
    this.rejected.add(line, name, `"${cells[column].trim().slice(0, 40)}"`, expected, cells, this.plan.text.delimiter);
  }
}

export function emptyBatch(capacity: number, channels: number): RowBatch {
  return {
    rows: 0,
    lines: new Float64Array(capacity),
    time: new Float64Array(capacity),
    channels: Array.from({ length: channels }, () => new Float64Array(capacity)),
    sensor: new Uint8Array(capacity),
  };
}
