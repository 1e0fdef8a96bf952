import type { TimeHabits } from '../time/time-habits.ts';
import type { ColumnPlan } from '../rows/row-batch.ts';
import { columnIndex, type LayoutFound } from '../infer/infer-layout.ts';
import { timeReader } from '../time/time-cells.ts';

/** Periods after which a clock of whole units is full: 8, 16, 24 and 32 bit. */
const FULL = [2 ** 32, 2 ** 31, 2 ** 24, 2 ** 16, 2 ** 8];
const COUNTER_FULL = [256, 2 ** 15, 2 ** 16, 2 ** 24, 2 ** 31, 2 ** 32];
const REPEATS_SHARE = 0.02;

/**
 * Learns from the head's rows how the stamps of one sensor behave: interval, jitter, resolution, repeated stamps.
 * @param rate_hz set where rows carry no time
 * @param quantity only rows of this quantity, where each has rows of its own
 */
export function learnTimeHabits(
  found: LayoutFound,
  columns: ColumnPlan,
  sensor: number,
  rate_hz: number | null,
  quantity: 'acc' | 'gyr' | null = null,
): TimeHabits {
  const counter_wraps = COUNTER_FULL;
  if (rate_hz)
    return { period_s: 1 / rate_hz, jitter_s: 0, resolution_s: 0, repeats: false, wraps_s: [], counter_wraps };
  const { head, layout } = found;
  const { time } = layout;
  const { side_column, quantity_column } = columns;
  const { acc, gyr, acc_value, gyr_value } = layout.sensors[sensor];
  const value = quantity === 'gyr' ? gyr_value : acc_value;
  const axes = (quantity === 'gyr' ? gyr!.columns : acc.columns).map((column) =>
    columnIndex(column, layout.column_names, layout.column_count, layout.name),
  );
  const mine = (row: number) =>
    (side_column === null || head.text[row]?.[side_column] === columns.side_values[sensor]) &&
    (quantity === null ||
      (quantity_column === null
        ? axes.some((column) => !Number.isNaN(head.numbers[column][row]))
        : head.text[row]?.[quantity_column] === value));
  const numeric = time.kind === 'number' && !time.fraction && !time.carried;
  const unit = time.kind === 'number' || time.kind === 'interval' ? time.seconds_per_unit : 1;
  const read = timeReader(columns.time, columns.time_columns, layout.text.decimal_mark);
  const stamps: number[] = [];
  const rows = numeric && side_column === null && quantity_column === null ? head.rows : head.text.length;
  for (let row = 0; row < rows; row++) {
    if (!mine(row)) continue;
    const value = numeric ? head.numbers[columns.time_columns[0]][row] : read(head.text[row]);
    if (!Number.isNaN(value)) stamps.push(value);
  }
  const steps = stamps.slice(1).map((value, index) => (value - stamps[index]) * unit);
  const forward = Float64Array.from(steps.filter((step) => step > 0)).sort();
  const typical = forward.length > 0 ? forward[forward.length >> 1] : 1;
  const repeats = steps.filter((step) => step === 0).length > REPEATS_SHARE * steps.length;
  const near = steps.filter((step) => step >= 0 && step <= (repeats ? 5 : 1.5) * typical);
  const period_s = near.length > 0 ? near.reduce((sum, step) => sum + step, 0) / near.length : typical;
  const deviations = Float64Array.from(near, (step) => Math.abs(step - period_s)).sort();
  const jitter_s = deviations.length > 0 ? 1.4826 * deviations[deviations.length >> 1] : 0;
  const last = columns.time_columns[columns.time_columns.length - 1];
  // A clock that has counted further than a size of counter has none of that size.
  const greatest = stamps.reduce((most, stamp) => Math.max(most, stamp), 0);
  const written = Math.max(0, ...head.text.slice(0, 500).map((cells) => decimalsOf(cells[last] ?? '')));
  // Fractions stand behind points, colons, or nothing: those of a stamp as text show in what it was read as.
  const decimals = time.kind === 'number' || time.kind === 'interval' ? written : Math.max(written, decimalsIn(stamps));
  return {
    period_s,
    jitter_s: Math.min(jitter_s, period_s),
    resolution_s: time.fraction ? time.fraction.seconds_per_unit : 10 ** -decimals * unit,
    repeats,
    wraps_s:
      time.kind === 'clock'
        ? [86_400, 43_200, 3600]
        : numeric && decimals === 0
          ? FULL.filter((full) => full > greatest).map((full) => full * unit)
          : [],
    counter_wraps,
  };
}

/** Decimals that seconds have in common, six at most. */
function decimalsIn(stamps: number[]): number {
  const looked = stamps.slice(0, 500);
  const whole = (value: number) => Math.abs(value - Math.round(value)) < 1e-3;
  for (let decimals = 0; decimals < 4; decimals++)
    if (looked.every((stamp) => whole((stamp % 1) * 10 ** decimals))) return decimals;
  return 4;
}

/** Digits behind the point that a stamp shows; those of a time zone or an exponent are none of them. */
function decimalsOf(cell: string): number {
  const power = /[.,](\d+)e([+-]?\d+)$/i.exec(cell.trim());
  if (power) return Math.max(0, power[1].length - Number(power[2]));
  const stamp = cell.trim().replace(/(:\d\d[.,]\d+)\s?[+-]\d\d:?\d\d$/, '$1');
  return /[.,](\d+)\D*$/.exec(stamp)?.[1].length ?? 0;
}
