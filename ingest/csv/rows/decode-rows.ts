import type { ColumnPlan, RowBatch } from './row-batch.ts';
import Papa from 'papaparse';
import { because, type CodedReason } from '../../../shared/reason.ts';
import { MISSING_VALUES, splitCells, toNumber } from '../text/cells.ts';
import { PlainRows } from './plain-rows.ts';
import type { RejectedRows } from './rejected-rows.ts';
import { timeReader } from '../time/time-cells.ts';

/** Names of other quantities that are told. */
const MOST_NAMES = 20;
const LONGEST_NAME = 40;

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

  /** Rows of quantities that no channel takes, by what they are called. */
  readonly passedOver = new Map<string, number>();

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
      const [found, expected] = [count, plan.column_count].map((n) => because('row_columns', { n }));
      this.rejected.add(line, null, found, expected, cells, plan.text.delimiter);
      return;
    }
    const { rows_of } = plan;
    if (rows_of && !rows_of.values.includes(cells[rows_of.column].trim())) {
      this.passOver(cells[rows_of.column]);
      return;
    }
    const row = batch.rows;
    const woven = plan.quantity_column === null ? null : plan.quantity_values.get(cells[plan.quantity_column].trim());
    if (woven === undefined) {
      this.passOver(cells[plan.quantity_column!]);
      return;
    }
    if (woven?.sensor) batch.sensor[row] = woven.sensor;
    else batch.sensor[row] = 0;
    if (plan.side_column !== null) {
      const sensor = plan.side_values.indexOf(cells[plan.side_column].trim());
      if (sensor < 0) {
        const values = plan.side_values.filter((value) => value !== null);
        this.reject(line, plan.side_column, cells, because('row_one_of', { values }));
        return;
      }
      batch.sensor[row] = sensor;
    }
    if (plan.time_columns.length > 0) {
      const time = this.readTime(cells);
      if (!Number.isFinite(time)) {
        this.reject(line, plan.time_columns[0], cells, because('row_time'));
        return;
      }
      batch.time[row] = time;
    }
    let measured = 0;
    for (let channel = 0; channel < plan.channels.length; channel++) {
      if (woven && !woven.channels[channel]) {
        batch.channels[channel][row] = Number.NaN;
        continue;
      }
      const cell = cells[plan.channels[channel]];
      const value = toNumber(cell, this.plan.text.decimal_mark);
      if (Number.isNaN(value)) {
        if (!this.missing.has(cell.trim().toLowerCase())) {
          this.reject(line, plan.channels[channel], cells, because('row_number'));
          return;
        }
      } else measured++;
      batch.channels[channel][row] = value;
    }
    if (measured === 0) {
      this.reject(line, plan.channels[0], cells, because('row_value'));
      return;
    }
    batch.quantity[row] = woven ? woven.quantity : plan.rows_alternate ? this.held(batch, row) : 3;
    batch.lines[row] = line;
    batch.rows++;
  }

  private passOver(cell: string): void {
    const name = cell.trim().slice(0, LONGEST_NAME);
    if (this.passedOver.size < MOST_NAMES || this.passedOver.has(name))
      this.passedOver.set(name, (this.passedOver.get(name) ?? 0) + 1);
  }

  /** What a row holds by its cells that are not empty. */
  private held({ channels }: RowBatch, row: number): number {
    const { acc_channels, gyr_channels } = this.plan;
    let held = 0;
    for (let channel = 0; channel < channels.length; channel++) {
      if (Number.isNaN(channels[channel][row])) continue;
      if (acc_channels[channel]) held |= 1;
      if (gyr_channels[channel]) held |= 2;
    }
    return held;
  }

  private reject(line: number, column: number, cells: string[], expected: CodedReason): void {
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
    quantity: new Uint8Array(capacity),
  };
}
