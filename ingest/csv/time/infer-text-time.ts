import { because } from '../../../shared/reason.ts';
import type { TimeColumns } from '../../../shared/schemas/layout.ts';
import { plainStamp } from '../text/plain-stamp.ts';
import { LayoutQuestion } from '../columns/layout-question.ts';
import { toldColumn, toldColumns } from '../columns/told-columns.ts';
import { isDateOrClock } from '../text/cells.ts';
import { possibleDateOrders, readClock, readInstant } from '../text/read-instant.ts';
import type { TimeSituation } from './time-situation.ts';

/** Side by side in one file, each foot may have a clock of its own: then rows do not belong together. */
export function refuseTwoClocks({ names, head, file }: TimeSituation): void {
  const of = (side: string) => names.find((name) => name.kind === 'time' && name.side === side);
  const [left, right] = [of('left'), of('right')];
  if (!left || !right) return;
  const [a, b] = [head.numbers[left.index], head.numbers[right.index]];
  if (a.every((value, row) => value === b[row] || Number.isNaN(value))) return;
  throw new LayoutQuestion(file, {
    about: 'time',
    found: because('found_two_clocks', { left: left.name, right: right.name }),
    choices: [],
    hint: because('do_one_file_a_sensor'),
  });
}

/** Dates and clock times as text, in one column or two. */
export function textTime({ head, names, evidence, file }: TimeSituation, base: TimeColumns): TimeColumns | null {
  const cellsOf = (column: number) => head.text.map((cells) => cells[column] ?? '');
  const textual = names
    .filter(({ index }) => {
      const cells = cellsOf(index).slice(0, 50);
      return cells.length > 0 && cells.filter(isDateOrClock).length > 0.8 * cells.length;
    })
    .map(({ index }) => index);
  const dates = textual.filter(
    (column) =>
      /^\d{1,4}[-/.]\d{1,2}[-/.]|^\d{8}T|^\d{1,2}[- ]\p{L}{3}/u.test(plainStamp(cellsOf(column)[0])) &&
      Number.isNaN(readClock(cellsOf(column)[0])),
  );
  const whole = dates.filter(
    (column) =>
      Number.isFinite(readInstant(cellsOf(column)[0], 'ymd') + 0) ||
      Number.isFinite(readInstant(cellsOf(column)[0], 'dmy')) ||
      Number.isFinite(readInstant(cellsOf(column)[0], 'mdy')),
  );
  const clocks = [
    ...textual.filter(
      (column) =>
        !dates.includes(column) && Number.isFinite(readClock(cellsOf(column)[0])) && !countsFrames(cellsOf(column)),
    ),
    ...names
      .filter((name) => name.kind === 'time' && isClockOfDigits(head.numbers[name.index]))
      .map(({ index }) => index),
  ];
  const pick = (kind: TimeColumns['kind'], columns: number[]): TimeColumns => {
    const orders = kind === 'clock' ? [] : possibleDateOrders(cellsOf(columns[0]));
    const stamps = columns.map((column) => cellsOf(column)[0]);
    evidence.push({
      about: 'time',
      decided: because('took_columns', { columns: toldColumns(columns.map((column) => names[column])) }),
      because: because('by_stamps', { stamp: stamps.join(' ') }),
      source: 'measured',
    });
    if (orders.length > 1) {
      evidence.push({
        about: 'date order',
        decided: because('took_no_order'),
        because: because('by_either_order', { stamp: stamps[0] }),
        source: 'measured',
      });
    }
    const zoned = /(Z|[+-]\d{2}:?\d{2})$/i.test(stamps.join(' '));
    if (kind !== 'clock' && orders.length === 1 && !zoned) {
      evidence.push({
        about: 'time zone',
        decided: because('took_text', { text: 'UTC' }),
        because: because('by_no_zone'),
        source: 'assumed',
      });
    }
    return { ...base, kind, columns, date_order: orders.length === 1 ? orders[0] : null };
  };
  if (whole.length > 0) return pick('iso', [whole[0]]);
  if (dates.length > 0 && clocks.length > 0) return pick('date_and_clock', [dates[0], clocks[0]]);
  if (clocks.length > 0) return pick('clock', [clocks[0]]);
  if (dates.length > 0) {
    evidence.push({
      about: 'date',
      decided: because('took_no_date', { column: toldColumn(names[dates[0]]) }),
      because: because('by_no_clock', { file }),
      source: 'measured',
    });
  }
  return null;
}

/** Frames of film behind the seconds, 14:03:57:24, are none of a second's hundredths: they never pass 59, in a second with far more rows. */
function countsFrames(cells: string[]): boolean {
  const frames = cells.map((cell) => /^\d{1,2}:\d{2}:\d{2}[:;](\d{2})$/.exec(cell)?.[1]);
  if (frames.length < 100 || frames.some((digits) => digits === undefined)) return false;
  return frames.every((digits) => Number(digits) < 60);
}

/**
 * Hours, minutes and seconds in one number, 140357.005 or 140357005: told by what happens at the full minute, where it grows by forty
 * seconds more than it should. Before that it cannot be told from seconds, and need not be.
 */
function isClockOfDigits(values: Float64Array): boolean {
  let turns = 0;
  // Milliseconds without a point make nine digits.
  const unit = values[0] >= 1e7 ? 1000 : 1;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    const value = values[i] / unit;
    if (value < 0 || value >= 240_000 || value % 100 >= 60 || Math.floor(value / 100) % 100 >= 60) return false;
    if (i > 0 && values[i - 1] / unit < value && Math.floor(value / 100) > Math.floor(values[i - 1] / unit / 100)) {
      const before = values[i - 1] / unit;
      if (before % 100 < 59 || value % 100 >= 1) return false;
      turns++;
    }
  }
  return turns > 0;
}
