import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { trend } from '../../../dsp/athlete/trend.ts';
import type { QuantityCourse, TrendBand } from '../../../shared/schemas/coach/course-view.ts';
import type { BlockView } from '../../../shared/schemas/coach/judgement.ts';
import { dateOfDay } from '../../../shared/dates.ts';
import { normalBasis, toBaselineValue, toNormal } from './normal.ts';
import type { HistoryValue } from './value-history.ts';
import { courseSentence } from '../words/course-sentences.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import { sidesOfSeveral } from './sides.ts';

export interface CourseOptions {
  /** The day it is looked at. */
  date: string;
  growing: boolean;
  /** Before and after of the block, by `blockViews`. */
  block: BlockView | null;
  length?: LengthUnit;
  words?: JudgementWords;
}

/**
 * One quantity over time: session levels, trend with its band, before and after of the block, what is normal now, left and right.
 * @param history oldest first
 */
export function quantityCourse(
  quantity: string,
  history: readonly HistoryValue[],
  { date, growing, block, length = 'm', words }: CourseOptions,
): QuantityCourse {
  const line = trend(history.map(toBaselineValue));
  const bySession = groupBySession(history);
  const shownTrend: TrendBand | null = line && {
    slope_per_week: line.slope_per_week,
    slope_low: line.slope_low,
    slope_high: line.slope_high,
    beyond_chance: line.beyond_chance,
    band: line.band.map(({ day, ...rest }) => ({ date: dateOfDay(day), ...rest })),
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
    block,
    normal: normal && toNormal(normal),
    sides: last
      ? sidesOfSeveral(quantity, bySession.get(last.session_id) ?? [], history, {
          date: last.date,
          growing,
          length,
          words,
        })
      : null,
    sentence: courseSentence(quantity, sessions, block, length, words),
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
