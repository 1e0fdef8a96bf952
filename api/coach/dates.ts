/** Calendar arithmetic on local dates written yyyy-mm-dd; no clock time and no time zone takes part. */

const MS_PER_DAY = 86_400_000;

/** Day numbers already worked out: a club's dates are few, and baselines ask for them thousands of times. */
const known = new Map<string, number>();
const MOST_KNOWN = 5000;

function toDayNumber(date: string): number {
  const day = known.get(date);
  if (day !== undefined) return day;
  if (known.size >= MOST_KNOWN) known.clear();
  const number = Math.round(Date.parse(`${date.slice(0, 10)}T00:00:00Z`) / MS_PER_DAY);
  known.set(date, number);
  return number;
}

/** Whole days from the first date to the second; negative when the second is earlier. */
export function daysBetween(from: string, to: string): number {
  return toDayNumber(to) - toDayNumber(from);
}

/** The date so many days later. */
export function addDays(date: string, days: number): string {
  return new Date((toDayNumber(date) + days) * MS_PER_DAY).toISOString().slice(0, 10);
}

/** Years from birth to the date, with fraction. */
export function ageYears(birth_date: string, on: string): number {
  return daysBetween(birth_date, on) / 365.25;
}

const MONTHS = 'January February March April May June July August September October November December'.split(' ');

/** `2 September`, with the year when it is not the same as the other date's. */
export function plainDate(date: string, beside = date): string {
  const [year, month, day] = date.split('-');
  return `${Number(day)} ${MONTHS[Number(month) - 1]}${beside.startsWith(year) ? '' : ` ${year}`}`;
}
