import type { ColumnName } from '../columns/name-column.ts';
import type { HeadTable } from '../text/head-table.ts';

export interface TimeFacts {
  column: ColumnName;
  /** Mean interval of consecutive rows without the gaps, in the column's unit. */
  interval: number;
  /** Spread of the intervals against their mean. */
  jitter: number;
  first: number;
  whole: boolean;
  /** Share of the rows that lie above the row before. */
  rises: number;
  /** Every step is exactly one. */
  counts: boolean;
  /** Only a packet's first row carries a stamp. */
  carried?: boolean;
}

/** Counts at which clocks of whole ticks start again: 16, 24 and 32 bit. */
const FULL = [2 ** 16, 2 ** 24, 2 ** 32];
/** A clock that starts again this seldom is one that grows. */
const SELDOM_BACK = 0.02;

/** Steps of a clock that starts again every few rows, with its full count added; as they are where no full count explains them. */
function unwrapped(steps: number[]): number[] {
  const back = steps.filter((step) => step < 0);
  if (back.length <= SELDOM_BACK * steps.length + 2) return steps;
  const forward = steps.filter((step) => step > 0).sort((a, b) => a - b);
  const typical = forward[forward.length >> 1];
  const full = FULL.find((count) => back.every((step) => step + count > 0 && step + count < 5 * typical));
  return full === undefined ? steps : steps.map((step) => (step < 0 ? step + full : step));
}

/** Facts of a column that grows; null where it does not. */
export function timeFacts(column: ColumnName, head: HeadTable, rows: number[] | null): TimeFacts | null {
  const all = head.numbers[column.index];
  const values = (rows ? rows.map((row) => all[row]) : [...all]).filter((value) => !Number.isNaN(value));
  if (values.length < 3 || values.length < 0.5 * (rows?.length ?? head.rows)) return null;
  const steps = unwrapped(values.slice(1).map((value, index) => value - values[index]));
  const forward = Float64Array.from(steps.filter((step) => step > 0)).sort();
  if (forward.length === 0 || steps.filter((step) => step < 0).length > SELDOM_BACK * steps.length + 2) return null;
  const typical = forward[forward.length >> 1];
  const near = steps.filter((step) => step >= 0 && step <= 5 * typical);
  const interval = near.reduce((sum, step) => sum + step, 0) / near.length;
  const spread = Math.sqrt(near.reduce((sum, step) => sum + (step - interval) ** 2, 0) / near.length);
  return {
    column,
    interval,
    jitter: spread / interval,
    first: values[0],
    whole: values.every((value) => value % 1 === 0),
    rises: forward.length / steps.length,
    counts: near.filter((step) => step === 1).length > 0.98 * near.length,
  };
}
