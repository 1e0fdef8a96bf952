import { type SideSpread, compareSides } from '../../dsp/athlete/side-difference.ts';
import { trend } from '../../dsp/athlete/trend.ts';
import { quantityDefinition } from '../../shared/coach-quantities.ts';
import type { QuantityCourse, SideView, TrendBand } from '../../shared/schemas/coach/course-view.ts';
import { addDays } from './dates.ts';
import { normalBasis, toBaselineValue, toNormal, DAY_ZERO } from './normal.ts';
import type { HistoryValue } from './value-history.ts';
import { sideSentence, trendSentence } from './course-sentences.ts';

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
): QuantityCourse {
  const line = trend(history.map(toBaselineValue));
  const bySession = groupBySession(history);
  const shownTrend: TrendBand | null = line && {
    slope_per_week: line.slope_per_week,
    slope_low: line.slope_low,
    slope_high: line.slope_high,
    beyond_chance: line.beyond_chance,
    band: line.band.map(({ day, ...rest }) => ({ date: addDays(DAY_ZERO, day), ...rest })),
    changes: line.changes.map(({ day, before, after }) => ({ date: addDays(DAY_ZERO, day), before, after })),
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
    sides: sidesOf(quantity, sessions.at(-1)?.session_id ?? null, bySession),
    sentence: trendSentence(quantity, sessions, shownTrend),
  };
}

/** Left and right over the last session, contact by contact. */
function sidesOf(quantity: string, session_id: number | null, bySession: Map<number, HistoryValue[]>): SideView | null {
  const last = session_id === null ? [] : (bySession.get(session_id) ?? []);
  const left = poolSide(last.map((entry) => [entry.left_value, entry.left_sd, entry.left_n]));
  const right = poolSide(last.map((entry) => [entry.right_value, entry.right_sd, entry.right_n]));
  const compared = left && right && compareSides(left, right);
  if (!compared || quantityDefinition(quantity) === null || quantity.includes('side_difference')) return null;
  const view = {
    left: compared.left.mean,
    right: compared.right.mean,
    difference: compared.difference,
    low: compared.low,
    high: compared.high,
    within_side_sd: compared.within_side_sd,
    beyond_chance: compared.beyond_chance,
    beyond_within_side: compared.beyond_within_side,
  };
  return { ...view, sentence: sideSentence(quantity, view) };
}

type SideTriple = [value: number | null, sd: number | null, n: number | null];

/** One side of several repetitions put together: means weighted by contacts, variances pooled within repetitions. */
export function poolSide(parts: readonly SideTriple[]): SideSpread | null {
  let [n, sum, square, freedom] = [0, 0, 0, 0];
  for (const [value, sd, contacts] of parts) {
    if (value === null || sd === null || contacts === null || contacts < 2) continue;
    n += contacts;
    sum += contacts * value;
    square += (contacts - 1) * sd ** 2;
    freedom += contacts - 1;
  }
  if (n < 2) return null;
  const sd = Math.sqrt(square / freedom);
  const value = sum / n;
  return { mean: value, sd, n, cv_percent: value > 0 ? (100 * sd) / value : null };
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
