import { because } from '../../../shared/reason.ts';
import type { TimeColumns } from '../../../shared/schemas/layout.ts';
import type { Evidence } from '../columns/evidence.ts';
import type { ColumnName } from '../columns/name-column.ts';
import { toldColumn } from '../columns/told-columns.ts';
import type { HeadTable } from '../text/head-table.ts';
import { timeReader } from './time-cells.ts';

const FRACTIONS = [
  { unit: 'us', seconds: 1e-6, full: 1e6 },
  { unit: 'ms', seconds: 1e-3, full: 1e3 },
  { unit: 'ns', seconds: 1e-9, full: 1e9 },
  { unit: 'hundredths of a second', seconds: 0.01, full: 100 },
];
/** Of a second that is parted into fractions, at least this much shows in the head. */
const LEAST_SEEN = 0.2;
const EVEN_SHARE = 0.97;

/**
 * Where stamps are whole seconds, another column may hold what is between: milliseconds, microseconds. Told by the sum, which
 * must grow evenly.
 * @returns the time with the fraction's column, or as it was
 */
export function withFraction(
  time: TimeColumns,
  names: ColumnName[],
  head: HeadTable,
  rows: number[] | null,
  decimalMark: string,
  evidence: Evidence[],
): TimeColumns {
  const columns = time.columns as number[];
  const read = timeReader(time, columns, decimalMark);
  const mine = (rows ?? Array.from(head.text.keys())).filter((row) => row < head.text.length);
  const stamped = mine
    .map((row) => ({ row, second: read(head.text[row]) * time.seconds_per_unit }))
    .filter(({ second }) => Number.isFinite(second));
  const seconds = stamped.map(({ second }) => second);
  const repeated = seconds.filter((value, i) => i > 0 && value === seconds[i - 1]).length;
  if (seconds.some((value) => value % 1 !== 0) || repeated < 0.5 * seconds.length) return time;
  // A number that never changes may be anything: only one that counts seconds on is a clock.
  if (time.kind === 'number' && !countsOn(seconds)) return time;
  for (const { index, name, axis, unit } of names) {
    if (columns.includes(index) || axis !== null) continue;
    // Single cells may be spoilt; they are set aside later.
    const whole = stamped.filter(({ row }) => head.numbers[index][row] >= 0 && head.numbers[index][row] % 1 === 0);
    if (whole.length < EVEN_SHARE * stamped.length) continue;
    const most = Math.max(...whole.map(({ row }) => head.numbers[index][row]));
    const fits = FRACTIONS.find(
      ({ full, seconds: unitSeconds }) =>
        most < full &&
        (most >= LEAST_SEEN * full || unit?.to_si === unitSeconds) &&
        growsEvenly(whole.map(({ row, second }) => second + head.numbers[index][row] * unitSeconds)) &&
        startsAnew(whole.map(({ row, second }) => ({ second, part: head.numbers[index][row] }))),
    );
    if (!fits) continue;
    evidence.push({
      about: 'time',
      decided: because('took_fraction', { column: toldColumn({ name, index }), unit: fits.unit }),
      because: because('by_whole_seconds'),
      source: 'measured',
    });
    return { ...time, fraction: { column: index, seconds_per_unit: fits.seconds } };
  }
  return time;
}

function countsOn(seconds: number[]): boolean {
  const steps = seconds.slice(1).map((value, i) => value - seconds[i]);
  return steps.some((step) => step > 0) && steps.every((step) => step >= 0 || step < -86_000);
}

/** What lies between whole seconds starts anew with each of them. */
function startsAnew(stamps: { second: number; part: number }[]): boolean {
  const next = stamps.filter(({ second }, i) => i > 0 && second > stamps[i - 1].second);
  const anew = stamps.filter(
    ({ second, part }, i) => i > 0 && second > stamps[i - 1].second && part < stamps[i - 1].part,
  );
  return anew.length >= EVEN_SHARE * next.length;
}

function growsEvenly(seconds: number[]): boolean {
  const steps = seconds.slice(1).map((value, i) => value - seconds[i]);
  const typical = [...steps].sort((a, b) => a - b)[steps.length >> 1];
  return typical > 0 && steps.filter((step) => step > 0 && step < 3 * typical).length >= EVEN_SHARE * steps.length;
}

/**
 * A packet's first row alone may carry the stamp: the rows after it, with an empty cell, share it.
 * @returns the column with its stamps carried on, and that it was so; null where it is not
 */
export function carriedStamps(column: ColumnName, head: HeadTable): Float64Array | null {
  const values = head.numbers[column.index];
  const stamped = Array.from(values.keys()).filter((row) => !Number.isNaN(values[row]));
  if (stamped.length < 4 || stamped[0] !== 0 || stamped.length > 0.5 * head.rows) return null;
  const texts = head.text.slice(0, 500);
  if (texts.some((cells, row) => Number.isNaN(values[row]) && cells[column.index] !== '')) return null;
  const spacing = stamped.slice(1).map((row, i) => row - stamped[i]);
  const usual = [...spacing].sort((a, b) => a - b)[spacing.length >> 1];
  const even = spacing.filter((rows) => Math.abs(rows - usual) <= 0.5 * usual).length >= 0.9 * spacing.length;
  const grows = stamped.every((row, i) => i === 0 || values[row] > values[stamped[i - 1]]);
  if (!even || !grows) return null;
  const carried = values.slice();
  for (let row = 1; row < carried.length; row++) if (Number.isNaN(carried[row])) carried[row] = carried[row - 1];
  return carried;
}

const INTERVAL_NAME = /(^|[^a-z])(dt|delta|δt|interval|diff|abstand|intervalle|intervalo)([^a-z]|$)/i;

/** Column of the time since the row before, by its name and by values that stay about the same; null where there is none. */
export function intervalColumn(names: ColumnName[], head: HeadTable): ColumnName | null {
  for (const name of names) {
    if (!INTERVAL_NAME.test(name.name.replace(/Δ/g, 'δ')) || name.kind === 'acc' || name.kind === 'gyr') continue;
    const values = head.numbers[name.index].subarray(1);
    const known = values.filter((value) => value > 0).sort();
    if (known.length < 0.9 * values.length || values.some((value) => value < 0)) continue;
    const typical = known[known.length >> 1];
    if (known.filter((value) => value < 3 * typical).length > EVEN_SHARE * known.length) return name;
  }
  return null;
}
