/** Built-in number formats that show a date or a time of day. Source: ECMA-376 part 1, 18.8.30. */
const BUILT_IN = [14, 15, 16, 17, 18, 19, 20, 21, 22, 45, 46, 47];
/** The same in the East Asian versions. Source: as above. */
const EAST_ASIAN = [27, 28, 29, 30, 31, 32, 33, 34, 35, 36, 50, 51, 52, 53, 54, 55, 56, 57, 58];
const MICROSECONDS_A_DAY = 86_400_000_000;
/** Days from the sheet's zero to 1970-01-01, counted as the sheet counts: with a 29 February 1900 that never was. */
const DAYS_TO_1970 = 25_569;
const DAYS_TO_1970_FROM_1904 = 24_107;

/** Whether a number format shows dates or times: letters of a date outside quotes, brackets and escapes. */
export function showsDate(id: number, code: string | undefined): boolean {
  if (code === undefined) return BUILT_IN.includes(id) || EAST_ASIAN.includes(id);
  const bare = code
    .replace(/"[^"]*"|\\.|[_*]./g, '')
    // Hours, minutes or seconds in brackets run on beyond a day; all else in brackets is a colour, a condition or a locale.
    .replace(/\[(?!h+\]|m+\]|s+\])[^\]]*\]/gi, '')
    .replace(/general/gi, '');
  return /[ymdhs]/i.test(bare);
}

/**
 * A day number as a date with its time, or as a time of day where it is less than one.
 * @param serial days, as the sheet counts them
 * @returns text to the microsecond, which is as far as a day number of today reaches
 */
export function dateText(serial: number, from1904: boolean): string {
  const whole = Math.floor(serial);
  const parts = Math.round((serial - whole) * MICROSECONDS_A_DAY);
  const clock = clockText(parts % MICROSECONDS_A_DAY);
  if (serial < 1) return clock;
  const day = whole + (parts === MICROSECONDS_A_DAY ? 1 : 0) - (from1904 ? DAYS_TO_1970_FROM_1904 : DAYS_TO_1970);
  return `${new Date(day * 86_400_000).toISOString().slice(0, 10)}T${clock}`;
}

function clockText(microseconds: number): string {
  const pad = (value: number, digits: number) => String(Math.floor(value)).padStart(digits, '0');
  const seconds = microseconds / 1e6;
  return `${pad(seconds / 3600, 2)}:${pad((seconds / 60) % 60, 2)}:${pad(seconds % 60, 2)}.${pad(microseconds % 1e6, 6)}`;
}
