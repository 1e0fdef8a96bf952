import { capital } from '../../../shared/capital.ts';
import { quantityDefinition } from '../../../shared/coach-quantities.ts';
import { dateOfDay, dayNumber } from '../../../shared/dates.ts';
import type { QuantityCourse } from '../../../shared/schemas/coach/course-view.ts';
import type { Figure } from '../../figures/figure.ts';
import { valueAxis } from '../../figures/value-axis.ts';
import { VERSION } from '../../version.ts';

/** Sessions as diamonds over single repetitions, with the trend and its 95 % band; null where there are no sessions. */
export function courseFigure({ quantity, sessions, repetitions, trend }: QuantityCourse): Figure | null {
  const definition = quantityDefinition(quantity);
  if (!definition || sessions.length === 0) return null;
  const { label, unit } = definition;
  const days = sessions.map(({ date }) => dayNumber(date));
  const [first, last] = [Math.min(...days), Math.max(...days)];
  const band = (trend?.band ?? []).map((point) => ({ ...point, x: dayNumber(point.date) }));
  const values = [
    ...sessions.map(({ value }) => value),
    ...repetitions.map(({ value }) => value),
    ...band.flatMap(({ low, high }) => [low, high]),
  ];
  const title = `${capital(label)} over sessions`;
  const slope = (value: number) => Number(value.toPrecision(3));
  return {
    title,
    caption: `${title}: ${sessions.length} sessions (diamonds, means), ${repetitions.length} repetitions (circles).${
      trend
        ? ` Line: trend with its 95 % band, ${slope(trend.slope_per_week)} (${slope(trend.slope_low)} to ${slope(trend.slope_high)}) ${unit} a week.`
        : ''
    } Cinderlane ${VERSION}.`,
    x: { label: 'session', low: first, high: last, ticks: dayTicks(first, last), text: dateOfDay },
    y: valueAxis(definition, [Math.min(...values), Math.max(...values)]),
    areas: [{ points: band, opacity: 0.15 }],
    lines: [{ points: band.map(({ x, value }): [number, number] => [x, value]), colour: 'ink' }],
    marks: [
      ...repetitions.map(({ date, value }) => ({ x: dayNumber(date), y: value, side: 'unknown' as const, shape: 0 })),
      ...sessions.map(({ date, value }) => ({ x: dayNumber(date), y: value, side: 'unknown' as const, shape: 3 })),
    ],
    legend: [
      { label: 'session', side: 'unknown', shape: 3, colour: 'ink' },
      { label: 'repetition', side: 'unknown', shape: 0, colour: 'ink' },
    ],
    data: [
      ...sessions.map(({ date, value, n }) => ({ of: 'session', date, value, n, low: null, high: null })),
      ...repetitions.map(({ date, value }) => ({ of: 'repetition', date, value, n: 1, low: null, high: null })),
      ...band.map((point) => ({
        of: 'trend',
        date: point.date,
        value: point.value,
        n: null,
        low: point.low,
        high: point.high,
      })),
    ],
  };
}

/** At most five days, whole ones, the first and the last among them. */
function dayTicks(first: number, last: number): number[] {
  const parts = Math.min(4, Math.max(1, last - first));
  const ticks = Array.from({ length: parts + 1 }, (_, k) => Math.round(first + (k * (last - first)) / parts));
  return [...new Set(ticks)];
}
