import type { TimeColumns } from '../../../shared/schemas/layout.ts';
import type { HeadTable } from '../text/head-table.ts';
import { timeFacts } from './time-facts.ts';
import type { ColumnName } from '../columns/name-column.ts';
import { timeReader } from './time-cells.ts';

/** Mean interval of one sensor's rows in the head, seconds; NaN where it cannot be told. */
export function headPeriod(
  time: TimeColumns,
  names: ColumnName[],
  head: HeadTable,
  rows: number[] | null,
  decimalMark: string,
): number {
  if (time.kind === 'rows') return time.rate_hz ? 1 / time.rate_hz : Number.NaN;
  const columns = time.columns.filter((column) => typeof column === 'number');
  if (columns.length < time.columns.length) return Number.NaN;
  if (time.kind === 'number' && !time.fraction && !time.carried) {
    return (timeFacts(names[columns[0]], head, rows)?.interval ?? Number.NaN) * time.seconds_per_unit;
  }
  const read = timeReader(time, columns, decimalMark);
  const mine = (rows ?? Array.from(head.text.keys())).filter((row) => row < head.text.length);
  const stamps = mine.map((row) => read(head.text[row])).filter((stamp) => !Number.isNaN(stamp));
  const unit = time.kind === 'number' || time.kind === 'interval' ? time.seconds_per_unit : 1;
  return ((stamps[stamps.length - 1] - stamps[0]) / (stamps.length - 1)) * unit;
}
