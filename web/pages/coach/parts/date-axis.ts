import { formatShortDate } from '../../../app/format.ts';

const MS_PER_DAY = 86_400_000;

/** A local date as a day number, for the x axis of a plot. */
export function dayOf(date: string): number {
  return Math.round(Date.parse(`${date}T00:00:00Z`) / MS_PER_DAY);
}

export function dateOf(day: number): string {
  return new Date(day * MS_PER_DAY).toISOString().slice(0, 10);
}

/** Some five ticks (three on a phone) between two days, on whole days, written as short dates. */
export function dateTicks(
  first: number,
  last: number,
  count = window.innerWidth < 480 ? 2 : 4,
): { ticks: number[]; format: (day: number) => string } {
  const steps = Math.max(1, Math.min(count, last - first));
  const ticks = Array.from({ length: steps + 1 }, (_, i) => Math.round(first + ((last - first) * i) / steps));
  return { ticks: [...new Set(ticks)], format: (day) => formatShortDate(dateOf(day)) };
}
