import type { Layout } from '../../../shared/schemas/layout.ts';
import { plainStamp, readDuration } from './plain-stamp.ts';

type DateOrder = NonNullable<Layout['time']['date_order']>;

const DATE = /^(\d{1,4})[-/.](\d{1,2})[-/.](\d{1,4})/;
const CLOCK = /^(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,:](\d{1,20}))?)?\s{0,3}([AP]M)?\s{0,3}(Z|[+-]\d{2}:?\d{2})?$/i;
const BASIC = /^(\d{4})(\d{2})(\d{2})T(\d{2})(\d{2})(\d{2})(?:[.,](\d+))?(Z)?$/;

/**
 * Seconds since 1970 of a date with a clock time, as loggers write it: ISO 8601, or day, month and year in any order.
 * @param order how a date that does not begin with the year is read
 * @returns seconds; without a zone the text is taken as UTC. NaN where it is no instant
 */
export function readInstant(written: string, order: DateOrder): number {
  const text = monthAsNumber(plainStamp(written));
  const basic = BASIC.exec(text);
  if (basic) {
    const day = Date.UTC(+basic[1], +basic[2] - 1, +basic[3]) / 1000;
    return day + +basic[4] * 3600 + +basic[5] * 60 + +basic[6] + fraction(basic[7]);
  }
  const date = DATE.exec(text);
  if (!date) return Number.NaN;
  const rest = text.slice(date[0].length).replace(/^[T\s]+/, '');
  const clock = readClock(rest);
  return readDay(date[0], order) + clock;
}

const NAMED_MONTH = /^(\d{1,2})[- ](\p{L}{3})\p{L}*\.?[- ](\d{4})/u;
/** English, and where they differ German, French, Spanish, Italian and Dutch, by the first three letters. */
const MONTHS = [
  'jan ene gen',
  'feb fev fév',
  'mar mär mrt',
  'apr avr abr',
  'may mai mag mei',
  'jun jui giu',
  'jul lug',
  'aug aou aoû ago',
  'sep set',
  'oct okt ott out',
  'nov',
  'dec dez déc dic',
];

/** 25-Nov-2026 as 2026-11-25; any other text as it is. */
function monthAsNumber(text: string): string {
  const named = NAMED_MONTH.exec(text);
  if (!named) return text;
  // 'juillet' and 'juin' share their first three letters.
  const full = text.toLowerCase().includes('juil')
    ? 6
    : MONTHS.findIndex((names) => names.split(' ').includes(named[2].toLowerCase()));
  if (full < 0) return text;
  return `${named[3]}-${String(full + 1).padStart(2, '0')}-${named[1].padStart(2, '0')}${text.slice(named[0].length)}`;
}

/** Seconds since 1970 at 0:00 UTC of a date; NaN where it is none. */
export function readDay(written: string, order: DateOrder): number {
  const text = monthAsNumber(plainStamp(written));
  const date = DATE.exec(text);
  if (!date) return Number.NaN;
  const numbers = [+date[1], +date[2], +date[3]];
  let [year, month, day] = numbers;
  if (date[1].length < 4) {
    if (order === 'mdy') [month, day, year] = numbers;
    else if (order === 'dmy') [day, month, year] = numbers;
  }
  if (year < 100) year += 2000;
  if (month < 1 || month > 12 || day < 1 || day > 31) return Number.NaN;
  return Date.UTC(year, month - 1, day) / 1000;
}

/** Hours, minutes and seconds parted by points, with a fraction, which tells them from a date. */
const DOTTED = /^(\d{1,2})\.([0-5]\d)\.([0-5]\d)[.,](\d+)$/;
/** The same without signs between, with milliseconds behind a point or not. */
const DIGITS_ALONE = /^(\d{1,2})(\d{2})(\d{2})(?:[.,](\d+)|(\d{3}))?$/;
/** Minutes and seconds, as a stopwatch shows them. */
const STOPWATCH = /^(\d{1,3}):([0-5]\d)[.,](\d+)$/;

/** Seconds since midnight of a clock time such as 14:03:22.125 or 2:03:22 PM, or of a stopwatch's 2:15.035; NaN where it is none. */
export function readClock(written: string): number {
  const text = written.trim();
  const colons = readColons(text);
  // Every row of a file comes by here: other spellings are looked for only where colons tell no time.
  return Number.isNaN(colons) ? readOtherClock(plainStamp(text)) : colons;
}

function readOtherClock(text: string): number {
  const duration = readDuration(text);
  if (Number.isFinite(duration)) return duration;
  const dotted = DOTTED.exec(text.trim());
  if (dotted) return +dotted[1] * 3600 + +dotted[2] * 60 + +dotted[3] + fraction(dotted[4]);
  const digits = DIGITS_ALONE.exec(text.trim());
  if (digits) return +digits[1] * 3600 + +digits[2] * 60 + +digits[3] + fraction(digits[4] ?? digits[5]);
  return readColons(text.trim());
}

function readColons(text: string): number {
  const stopwatch = STOPWATCH.exec(text);
  if (stopwatch) return +stopwatch[1] * 60 + +stopwatch[2] + fraction(stopwatch[3]);
  const clock = CLOCK.exec(text);
  if (!clock) return Number.NaN;
  let hour = +clock[1];
  if (clock[5]) hour = (hour % 12) + (/p/i.test(clock[5]) ? 12 : 0);
  let seconds = hour * 3600 + +clock[2] * 60 + (clock[3] ? +clock[3] : 0) + fraction(clock[4]);
  const zone = clock[6];
  if (zone && zone.toUpperCase() !== 'Z') {
    const minutes = +zone.slice(1, 3) * 60 + +zone.slice(-2);
    seconds -= (zone[0] === '-' ? -60 : 60) * minutes;
  }
  return seconds;
}

/** Which date orders a set of dates allows: a first number above 12 can be no month. */
export function possibleDateOrders(texts: string[]): DateOrder[] {
  if (texts.length > 0 && texts.every((text) => BASIC.test(text))) return ['ymd'];
  const dates = texts.map((text) => DATE.exec(monthAsNumber(plainStamp(text)))).filter((date) => date !== null);
  if (dates.some((date) => date[1].length === 4)) return ['ymd'];
  const orders: DateOrder[] = [];
  if (dates.every((date) => +date[2] <= 12)) orders.push('dmy');
  if (dates.every((date) => +date[1] <= 12)) orders.push('mdy');
  if (dates.length > 0 && dates.every((date) => date[0].includes('.')))
    return orders.filter((order) => order === 'dmy');
  return orders;
}

function fraction(digits: string | undefined): number {
  return digits ? Number(`0.${digits}`) : 0;
}
