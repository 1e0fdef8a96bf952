/** Stamps as people and programs of other countries write them, brought to the forms that read-instant.ts reads. */

const MONTHS = 'jan feb mar apr may jun jul aug sep oct nov dec'.split(' ');
const pad = (digits: string | number, length = 2): string => String(digits).padStart(length, '0');

/** Wed Nov 25 14:03:22.005 2026 */
const UNIX_DATE = /^(?:[a-z]{3},?\s+)?([a-z]{3})\s+(\d{1,2})\s+(\d{1,2}:\d{2}:\d{2}(?:\.\d+)?)\s+(\d{4})$/i;
/** Nov 25, 2026 2:03:22.005 PM */
const MONTH_FIRST = /^([a-z]{3})[a-z]{0,6}\.?\s{1,3}(\d{1,2}),\s{0,3}(\d{4}),?\s{1,3}(\d.*)$/i;
/** 2026-329T14:03:22.005Z (ISO 8601, the day of the year) */
const DAY_OF_YEAR = /^(\d{4})-(\d{3})[T ](.+)$/;
/** 20261125_140357_005, 20261125140357005, 20261125140357.005 */
const DIGITS = /^((?:19|20)\d{2})(\d{2})(\d{2})[T_ -]?(\d{2})(\d{2})(\d{2})(?:[._,-]?(\d{1,9}))?$/;
const BEFORE_NOON = /上午|午前|오전|a\.\s?m\./i;
const AFTER_NOON = /下午|午後|오후|p\.\s?m\./i;
/** 0 days 00:00:05.005 */
const DAYS = /^(\d{1,4}) days? \+?(\d{1,2}):(\d{2}:\d{2}(?:[.,]\d+)?)$/i;
/** PT5.005S, 0h 00m 05.005s, T+5.005, 5.005 s */
const DURATION = /^(?:P?T\+?)?\s{0,3}(?:(\d{1,3})\s?h)?\s{0,3}(?:(\d{1,4})\s?m)?\s{0,3}(\d{1,9}(?:[.,]\d+)?)\s?s?$/i;

const LONGEST_STAMP = 60;

/** A stamp in a form of its own, plainly; any other text as it is. */
export function plainStamp(written: string): string {
  if (written.length > LONGEST_STAMP) return written;
  const text = written
    .replace(
      /^(\d{2,4})[年년]\s?(\d{1,2})[月월]\s?(\d{1,2})[日일]\s?/,
      (_whole, y, m, d) => `${y}-${pad(m)}-${pad(d)} `,
    )
    .replace(
      /(\d{1,2})[時时시]\s?(\d{1,2})[分분]\s?(\d{1,2}(?:\.\d+)?)[秒초]$/,
      (_whole, h, m, s) => `${h}:${pad(m)}:${s}`,
    );
  const digits = DIGITS.exec(text);
  if (digits && isDay(digits) && Number(digits[4]) < 24 && Number(digits[5]) < 60 && Number(digits[6]) < 61) {
    const [, y, mo, d, h, mi, s, part] = digits;
    return `${y}-${mo}-${d} ${h}:${mi}:${s}${part ? `.${part}` : ''}`;
  }
  const unix = UNIX_DATE.exec(text);
  if (unix && MONTHS.includes(unix[1].toLowerCase()))
    return `${unix[4]}-${pad(MONTHS.indexOf(unix[1].toLowerCase()) + 1)}-${pad(unix[2])} ${unix[3]}`;
  const first = MONTH_FIRST.exec(text);
  if (first && MONTHS.includes(first[1].toLowerCase()))
    return `${first[3]}-${pad(MONTHS.indexOf(first[1].toLowerCase()) + 1)}-${pad(first[2])} ${first[4]}`;
  const ofYear = DAY_OF_YEAR.exec(text);
  if (ofYear) {
    const day = new Date(Date.UTC(Number(ofYear[1]), 0, Number(ofYear[2]))).toISOString().slice(0, 10);
    return `${day}T${ofYear[3]}`;
  }
  for (const [half, pattern] of [
    ['AM', BEFORE_NOON],
    ['PM', AFTER_NOON],
  ] as const) {
    const match = pattern.exec(text);
    if (!match) continue;
    const parts = [text.slice(0, match.index), text.slice(match.index + match[0].length)].map((part) => part.trim());
    return `${parts.filter((part) => part !== '').join(' ')} ${half}`;
  }
  return text;
}

function isDay([, , month, day]: RegExpExecArray): boolean {
  return Number(month) >= 1 && Number(month) <= 12 && Number(day) >= 1 && Number(day) <= 31;
}

/** Seconds of a time that went by, in words or with its unit; NaN where it is none, a bare number among them. */
export function readDuration(text: string): number {
  const days = DAYS.exec(text);
  if (days) {
    const [minutes, seconds] = days[3].split(':');
    return Number(days[1]) * 86_400 + Number(days[2]) * 3600 + Number(minutes) * 60 + Number(seconds.replace(',', '.'));
  }
  if (text.length > LONGEST_STAMP || !/[a-z]/i.test(text)) return Number.NaN;
  const match = DURATION.exec(text);
  if (!match) return Number.NaN;
  return Number(match[1] ?? 0) * 3600 + Number(match[2] ?? 0) * 60 + Number(match[3].replace(',', '.'));
}
