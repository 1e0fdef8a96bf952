import type { TimeColumns } from '../../../shared/schemas/layout.ts';
import { toNumber } from '../text/cells.ts';
import { readClock, readDay, readInstant } from '../text/read-instant.ts';

/**
 * A function that reads a row's time: the raw number of a `number` column, seconds since 1970 of a date, seconds since midnight
 * of a clock time. NaN where the cell is none of these.
 */
export function timeReader(time: TimeColumns, columns: number[], decimalMark: string): (cells: string[]) => number {
  const whole = plainReader(time, columns, decimalMark);
  if (time.kind === 'interval') {
    let sum = 0;
    let first = true;
    return (cells) => {
      const interval = whole(cells);
      // The first row's interval leads to a row that is not there.
      if (!first && Number.isFinite(interval)) sum += interval;
      first = false;
      return Number.isFinite(interval) ? sum : interval;
    };
  }
  if (time.fraction) {
    const column = time.fraction.column as number;
    const factor = time.fraction.seconds_per_unit / time.seconds_per_unit;
    return (cells) => whole(cells) + toNumber(cells[column], decimalMark) * factor;
  }
  if (!time.carried) return whole;
  let last = Number.NaN;
  return (cells) => {
    if (columns.some((column) => cells[column].trim() !== '')) last = whole(cells);
    return last;
  };
}

function plainReader(time: TimeColumns, columns: number[], decimalMark: string): (cells: string[]) => number {
  const order = time.date_order ?? 'ymd';
  const [first, second] = columns;
  if (time.kind === 'number' || time.kind === 'interval') return (cells) => toNumber(cells[first], decimalMark);
  if (time.kind === 'iso')
    return cachedByMinute(
      (text) => readInstant(text, time.date_order ?? anyOrder(text)),
      (cells) => cells[first].trim(),
    );
  if (time.kind === 'clock') return (cells) => readClock(cells[first]);
  if (time.kind === 'date_and_clock') {
    return (cells) =>
      readDay(cells[first].trim(), time.date_order ?? (anyOrder(cells[first].trim()) || order)) +
      readClock(cells[second]);
  }
  return () => 0;
}

/** Where the order of day and month is not known, any order gives the same intervals within a day. */
function anyOrder(text: string): 'ymd' | 'dmy' {
  return /^\d{4}/.test(text) ? 'ymd' : 'dmy';
}

/** Rows of one minute share all but the seconds: only those are read again. */
function cachedByMinute(
  read: (text: string) => number,
  textOf: (cells: string[]) => string,
): (cells: string[]) => number {
  let minute = '';
  let base = 0;
  return (cells) => {
    const text = textOf(cells);
    const match = /^(.{10,16}:\d{2}:)(\d{2}(?:\.\d+)?)(Z?)$/.exec(text);
    if (!match) return read(text);
    if (match[1] + match[3] !== minute) {
      base = read(`${match[1]}00${match[3]}`);
      minute = match[1] + match[3];
    }
    return base + Number(match[2]);
  };
}
