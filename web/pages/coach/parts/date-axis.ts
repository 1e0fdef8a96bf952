import { dateOfDay } from '../../../../shared/dates.ts';
import { formatShortDate } from '../../../app/format.ts';

/** Some five ticks (three on a phone) between two days, on whole days, written as short dates. */
export function dateTicks(
  first: number,
  last: number,
  count = window.innerWidth < 480 ? 2 : 4,
): { ticks: number[]; format: (day: number) => string } {
  const steps = Math.max(1, Math.min(count, last - first));
  const ticks = Array.from({ length: steps + 1 }, (_, i) => Math.round(first + ((last - first) * i) / steps));
  return { ticks: [...new Set(ticks)], format: (day) => formatShortDate(dateOfDay(day)) };
}
