import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import { addDays, daysBetween } from '../../../shared/dates.ts';

/**
 * When to test next: so many days after the last test, moved off the day after a speed session (48 h of rest,
 * Haugen 2019, doi 10.1186/s40798-019-0221-0), and never in the past.
 * @param interval_days the coach's own; null while none is set, and then no date is told
 * @param last date of the last test, null when there was none
 * @param today local date
 * @param speed_days dates of speed sessions, held or planned
 */
export function nextTestDate(
  last: string | null,
  today: string,
  interval_days: number | null,
  speed_days: readonly string[] = [],
  words: JudgementWords = JUDGEMENT_EN,
): { date: string | null; overdue_days: number; why: string } {
  if (interval_days === null) return { date: null, overdue_days: 0, why: words.coach.testing('no_interval') };
  const due = last === null ? today : addDays(last, interval_days);
  const overdue_days = Math.max(0, daysBetween(due, today));
  let date = overdue_days > 0 ? today : due;
  let moved = false;
  for (let tries = 0; tries < 7; tries++) {
    const tooClose = speed_days.some((day) => daysBetween(day, date) === 1);
    if (!tooClose) break;
    date = addDays(date, 1);
    moved = true;
  }
  const why = words.coach.testing('next_test', {
    days: interval_days,
    date: last && words.date(last, today),
    overdue: overdue_days,
    moved,
  });
  return { date, overdue_days, why };
}
