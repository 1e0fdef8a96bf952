import type { Layout } from '../../../shared/schemas/layout.ts';

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
  /** Rows that are read; null where all are. */
  rows_of: { column: number; values: string[] } | null;
  text: Layout['text'];
  /** Column whose cells name the quantity of their row; null where every row holds all. */
  quantity_column: number | null;
  /** What its cells stand for: a sensor of the layout (null: the side column tells) and the channels that are read. */
  quantity_values: Map<string, { sensor: number | null; quantity: number; channels: boolean[] }>;
  /** True where a row holds acceleration or angular rate, the other's cells empty. */
  rows_alternate: boolean;
  /** Which channels are acceleration and which angular rate, of any sensor. */
  acc_channels: boolean[];
  gyr_channels: boolean[];
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
  /** What a row holds: 1 acceleration, 2 angular rate, 3 both. */
  quantity: Uint8Array;
}
