/** Calendar arithmetic on local dates written yyyy-mm-dd; no clock time and no time zone takes part. */

/** What tells a local day: a moment, as the device's calendar reads it. */
interface LocalCalendar {
  getFullYear(): number;
  getMonth(): number;
  getDate(): number;
}

function written(year: number, month: number, day: number): string {
  const padded = (value: number, length: number): string => String(value).padStart(length, '0');
  return `${padded(year, 4)}-${padded(month, 2)}-${padded(day, 2)}`;
}

/** The day that a moment falls on where the device is: in the evening of a place west of Greenwich not yet tomorrow. */
export function localDate(moment: LocalCalendar): string {
  return written(moment.getFullYear(), moment.getMonth() + 1, moment.getDate());
}

const [DAYS_OF_400_YEARS, DAYS_TO_1970] = [146_097, 719_468];

/**
 * Day of a date, counted from 1970-01-01. What follows the tenth sign is left out.
 * Years begin in March here, so that the day that comes every four years is the last one (Gregorian calendar, ISO 8601).
 */
export function dayNumber(date: string): number {
  const [year, month, day] = [date.slice(0, 4), date.slice(5, 7), date.slice(8, 10)].map(Number);
  const from_march = month > 2 ? year : year - 1;
  const era = Math.floor(from_march / 400);
  const year_of_era = from_march - era * 400;
  const day_of_year = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  const leap_days = Math.floor(year_of_era / 4) - Math.floor(year_of_era / 100);
  return era * DAYS_OF_400_YEARS + year_of_era * 365 + leap_days + day_of_year - DAYS_TO_1970;
}

/** The date of a day counted from 1970-01-01. */
export function dateOfDay(day: number): string {
  const since = Math.floor(day) + DAYS_TO_1970;
  const era = Math.floor(since / DAYS_OF_400_YEARS);
  const day_of_era = since - era * DAYS_OF_400_YEARS;
  const corrected = day_of_era - Math.floor(day_of_era / 1460) + Math.floor(day_of_era / 36_524);
  const year_of_era = Math.floor((corrected - Math.floor(day_of_era / 146_096)) / 365);
  const leap_days = Math.floor(year_of_era / 4) - Math.floor(year_of_era / 100);
  const day_of_year = day_of_era - (365 * year_of_era + leap_days);
  const from_march = Math.floor((5 * day_of_year + 2) / 153);
  const month = from_march < 10 ? from_march + 3 : from_march - 9;
  const year = era * 400 + year_of_era + (month <= 2 ? 1 : 0);
  return written(year, month, day_of_year - Math.floor((153 * from_march + 2) / 5) + 1);
}

/** Whole days from the first date to the second; negative when the second is earlier. */
export function daysBetween(from: string, to: string): number {
  return dayNumber(to) - dayNumber(from);
}

/** The date so many days later. */
export function addDays(date: string, days: number): string {
  return dateOfDay(dayNumber(date) + days);
}

/** Completed years from which on a person is taken for an adult; local law may say otherwise. */
export const ADULT_FROM = 18;

/**
 * Completed years between a birth date and a date; a birthday counts from its morning on. Of a year of birth alone its last day is taken,
 * so that nobody is held to be older than they are.
 * @param birth `2012-05-04`, or `2012`
 */
export function ageAt(birth: string, on: string): number {
  const birth_date = birth.length === 4 ? `${birth}-12-31` : birth;
  const years = Number(on.slice(0, 4)) - Number(birth_date.slice(0, 4));
  return on.slice(5, 10) < birth_date.slice(5, 10) ? years - 1 : years;
}

/** A year in which nobody recorded a sprint: what was recorded on a day that nobody knows is put there, so that days keep an order. */
const STAND_IN_YEAR = '1800';

/** A day that stands in for one that is not known; sessions of one athlete are told apart by their number. */
export function standInDate(number: number): string {
  return addDays(`${STAND_IN_YEAR}-01-01`, number);
}

/** Whether a date only stands in for one that is not known: it is shown as unknown, and left out of what leaves the house. */
export function isStandIn(date: string): boolean {
  return date.startsWith(`${STAND_IN_YEAR}-`);
}
