import { type Trend, trend } from '../../../dsp/athlete/trend.ts';
import type { QuantityCourse, TrendBand } from '../../../shared/schemas/coach/course-view.ts';
import { dateOfDay } from '../../../shared/dates.ts';
import { normalBasis, toBaselineValue, toNormal } from './normal.ts';
import type { HistoryValue } from './value-history.ts';
import { trendSentence } from '../words/course-sentences.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import { sidesOfSeveral } from './sides.ts';

/**
 * Level changes, only where levels describe the sessions better than one straight line does: a steady trend cut into levels
 * would otherwise show a jump that never was. Compared by Schwarz's criterion (BIC): n log(RSS / n) + parameters log n.
 */
function levelChanges(line: Trend): Trend['changes'] {
  if (line.changes.length === 0) return [];
  const n = line.sessions.length;
  const residuals = (value: (index: number) => number) =>
    line.sessions.reduce((sum, session, index) => sum + (session.value - value(index)) ** 2, 0);
  const criterion = (rss: number, parameters: number) => n * Math.log(rss / n) + parameters * Math.log(n);
  const straight = criterion(
    residuals((index) => line.band[index].value),
    2,
  );
  const level = (index: number) => {
    const passed = line.changes.filter((change) => line.sessions[index].day >= change.day);
    return passed.at(-1)?.after ?? line.changes[0].before;
  };
  const levels = criterion(residuals(level), 2 * line.changes.length + 1);
  return levels < straight ? line.changes : [];
}

/**
 * One quantity over time: session levels, trend with confidence band and change points, what is normal now, left and right.
 * @param history oldest first
 * @param date the day it is looked at
 */
export function quantityCourse(
  quantity: string,
  history: readonly HistoryValue[],
  date: string,
  growing: boolean,
  length: LengthUnit = 'm',
): QuantityCourse {
  const line = trend(history.map(toBaselineValue));
  const bySession = groupBySession(history);
  const shownTrend: TrendBand | null = line && {
    slope_per_week: line.slope_per_week,
    slope_low: line.slope_low,
    slope_high: line.slope_high,
    beyond_chance: line.beyond_chance,
    band: line.band.map(({ day, ...rest }) => ({ date: dateOfDay(day), ...rest })),
    changes: levelChanges(line).map(({ day, before, after }) => ({ date: dateOfDay(day), before, after })),
  };
  const levels = new Map(line?.sessions.map((point) => [point.session, point.value]));
  const sessions = [...bySession.values()].map((group) => ({
    session_id: group[0].session_id,
    date: group[0].session_date,
    value: levels.get(group[0].session_id) ?? mean(group.map((entry) => entry.value))!,
    n: group.length,
    left: mean(group.map((entry) => entry.left_value)),
    right: mean(group.map((entry) => entry.right_value)),
  }));
  const last = sessions.at(-1);
  const normal = normalBasis(quantity, history, [], date, growing);
  return {
    quantity,
    sessions,
    repetitions: history.map((entry) => ({
      repetition_id: entry.repetition_id,
      date: entry.session_date,
      value: entry.value,
    })),
    trend: shownTrend,
    normal: normal && toNormal(normal),
    sides: last ? sidesOfSeveral(quantity, bySession.get(last.session_id) ?? [], length) : null,
    sentence: trendSentence(quantity, sessions, shownTrend, length),
  };
}

function groupBySession(history: readonly HistoryValue[]): Map<number, HistoryValue[]> {
  const groups = new Map<number, HistoryValue[]>();
  for (const entry of history) {
    const group = groups.get(entry.session_id);
    if (group) group.push(entry);
    else groups.set(entry.session_id, [entry]);
  }
  return groups;
}

function mean(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : known.reduce((a, b) => a + b, 0) / known.length;
}
