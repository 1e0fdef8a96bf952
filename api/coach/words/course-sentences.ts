import { quantityDefinition } from '../../../shared/coach-quantities.ts';
import type { FatigueLine, SessionLevel, SideView, TrendBand } from '../../../shared/schemas/coach/course-view.ts';
import { daysBetween } from '../../../shared/dates.ts';
import { plainDate } from './plain-date.ts';
import { directionWords } from './direction-words.ts';
import { capital, type LengthUnit, withUnit } from './quantity-words.ts';

/** What changes in a week gets one more decimal. */
function smallChange(quantity: string, value: number, length: LengthUnit): string {
  return withUnit(quantity, Math.abs(value), length, 1);
}

/** What the weeks show, with its certainty. */
export function trendSentence(
  quantity: string,
  sessions: readonly SessionLevel[],
  trend: TrendBand | null,
  length: LengthUnit = 'm',
): string {
  const label = quantityDefinition(quantity)?.label ?? quantity;
  if (sessions.length === 0) return `${capital(label)}: nothing measured yet.`;
  const last = sessions.at(-1)!;
  if (!trend) {
    const missing = 4 - sessions.length;
    return `${capital(label)} ${withUnit(quantity, last.value, length)} in the last session; ${missing > 0 ? `${missing} more ${missing === 1 ? 'session' : 'sessions'}` : 'more days'} until a trend can be told.`;
  }
  const words = directionWords(quantity, label);
  const weeks = Math.max(1, Math.round(daysBetween(sessions[0].date, last.date) / 7));
  const direction = trend.slope_per_week > 0 ? words.more : words.less;
  const change = trend.changes.at(-1);
  const step = change
    ? ` The level changed about ${plainDate(change.date, last.date)}: from ${withUnit(quantity, change.before, length)} to ${withUnit(quantity, change.after, length)}.`
    : '';
  if (!trend.beyond_chance)
    return `${capital(label)} about ${withUnit(quantity, last.value, length)}: no trend beyond chance over ${weeks} weeks.${step}`;
  return `${capital(words.subject)} gets ${direction} by ${smallChange(quantity, trend.slope_per_week, length)} a week over ${weeks} weeks, beyond chance (between ${smallChange(quantity, nearer(trend), length)} and ${smallChange(quantity, farther(trend), length)}).${step}`;
}

function nearer(trend: TrendBand): number {
  return Math.min(Math.abs(trend.slope_low), Math.abs(trend.slope_high));
}
function farther(trend: TrendBand): number {
  return Math.max(Math.abs(trend.slope_low), Math.abs(trend.slope_high));
}

/** Left against right, always beside the variation within a side and never as a sign of injury. */
export function sideSentence(quantity: string, sides: Omit<SideView, 'sentence'>, length: LengthUnit = 'm'): string {
  const label = quantityDefinition(quantity)?.label ?? quantity;
  const size = withUnit(quantity, Math.abs(sides.difference), length);
  const side = sides.difference > 0 ? 'left' : 'right';
  const within = withUnit(quantity, sides.within_side_sd, length);
  if (!sides.beyond_chance) return `${capital(label)}: left and right alike within chance.`;
  const words = directionWords(quantity, label).more;
  const tail = sides.beyond_within_side
    ? `more than one side varies by itself (${within}). It is no sign of injury by itself`
    : `less than one side varies by itself (${within})`;
  return `${capital(label)} is ${size} ${words} on the ${side}, ${tail}.`;
}

/** How a session drifts, and what the coach's rule says. */
export function fatigueSentence(line: Omit<FatigueLine, 'sentence'>): string {
  const { quantity, fresh, last, change_percent, slope } = line;
  const label = quantityDefinition(quantity)?.label ?? quantity;
  if (fresh === null || last === null || change_percent === null) {
    return `${capital(label)}: three like repetitions are needed to see it tire.`;
  }
  const sign = change_percent > 0 ? '+' : '−';
  const drift =
    slope === null || (slope.low <= 0 && slope.high >= 0)
      ? 'no drift beyond chance'
      : `drifting by ${smallChange(quantity, slope.value, 'm')} a repetition, beyond chance`;
  const stop = line.stop ? ' Your stop rule is met.' : '';
  return `${capital(label)} ${withUnit(quantity, fresh)} fresh, ${withUnit(quantity, last)} at the end (${sign}${Math.abs(change_percent).toFixed(1)} %), ${drift}.${stop}`;
}
