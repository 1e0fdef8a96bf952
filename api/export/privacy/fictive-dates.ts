import { addDays, daysBetween } from '../../../shared/dates.ts';

const BLOCK_DAYS = 28;
/** BIDS: dates that were moved lie in 1925 or earlier (specification, 'Scans file'). Twenty-five years of sessions fit. */
const FIRST_DAY = '1900-01-01';
const LAST_DAY = '1925-12-31';

/**
 * Dates that keep the order of one athlete's sessions and how many times four weeks lie between them, and nothing else: the true
 * intervals would find their place in a known calendar.
 * @param dates of the sessions, in order; null where nobody knows the day, which stays so
 * @param shift 1 to 365, the athlete's own: moves the first day and where blocks of four weeks begin
 */
export function fictiveDates(dates: (string | null)[], shift: number): (string | null)[] {
  const inBlock = new Map<number, number>();
  const first = dates.find((date) => date !== null);
  return dates.map((date) => {
    if (date === null) return null;
    const block = Math.floor((daysBetween(first!, date) + (shift % BLOCK_DAYS)) / BLOCK_DAYS);
    const place = Math.min(BLOCK_DAYS - 1, inBlock.get(block) ?? 0);
    inBlock.set(block, place + 1);
    const day = addDays(FIRST_DAY, shift + block * BLOCK_DAYS + place);
    return day > LAST_DAY ? LAST_DAY : day;
  });
}

/** Time of day of a session's recordings: their order, a minute each from noon. */
export function fictiveInstant(date: string, run: number): string {
  const minutes = 720 + Math.min(run - 1, 719);
  return `${date}T${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}:00`;
}
