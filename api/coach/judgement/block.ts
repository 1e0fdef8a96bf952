import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import { blockChange, type Level } from '../../../dsp/athlete/block-change.ts';
import type { BlockView } from '../../../shared/schemas/coach/judgement.ts';
import type { Store } from '../../store/store.ts';
import { addDays, dateOfDay, dayNumber } from '../../../shared/dates.ts';
import { currentFocuses } from '../athlete-records.ts';
import { blockSentence } from '../words/block-sentence.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import type { AimOf } from './aims.ts';
import { isWanted } from './aims.ts';
import { toBaselineValue } from './normal.ts';
import { type Condition, plainHistories } from './value-history.ts';

/** Without a focus a block is the last twelve weeks. */
const WITHOUT_FOCUS_DAYS = 84;
/** Sessions before the block that may count as before; see dsp/athlete/block-change.ts. */
const BEFORE_DAYS = 60;

/** First day of the block an athlete is in on that day: since the focus began, else the last twelve weeks. */
export function blockStart(store: Store, athlete_id: number, date: string): string {
  return currentFocuses(store, athlete_id, date)[0]?.from_date ?? addDays(date, -WITHOUT_FOCUS_DAYS);
}

/**
 * Before and after of the block by quantity. Field screen, page, month report and paper all ask here, so that they say the
 * same of the same day. Surface and footwear are left open, as everywhere over weeks.
 * @param date the day it is looked at; later repetitions do not count
 */
export function blockViews(
  store: Store,
  athlete_id: number,
  quantities: readonly string[],
  condition: Condition,
  date: string,
  aimOf: AimOf,
  length: LengthUnit = 'm',
  words: JudgementWords = JUDGEMENT_EN,
): Map<string, BlockView> {
  const from_date = blockStart(store, athlete_id, date);
  const over_weeks = { ...condition, surface: null, footwear: null };
  const limits = { from: addDays(from_date, -BEFORE_DAYS), to: date };
  const histories = plainHistories(store, athlete_id, quantities, over_weeks, limits);
  const views = new Map<string, BlockView>();
  for (const quantity of quantities) {
    const values = (histories.get(quantity) ?? []).map(toBaselineValue);
    const change = blockChange(values, quantity, dayNumber(from_date));
    if (!change) continue;
    // Without sessions before the block its own first ones are the beginning, and it is told since then.
    const first = dateOfDay(change.before.first_day);
    const view = {
      quantity,
      from_date: [first, from_date].sort()[1],
      before: level(change.before),
      now: level(change.now),
      change: change.change,
      low: change.low,
      high: change.high,
      certainty: change.certainty,
      beyond: change.beyond,
      wanted: change.beyond && isWanted(aimOf(quantity), change.beyond, change.before.value),
    };
    views.set(quantity, { ...view, sentence: blockSentence(view, date, length, words) });
  }
  return views;
}

function level({ first_day, last_day, ...rest }: Level): BlockView['before'] {
  return { ...rest, first_date: dateOfDay(first_day), last_date: dateOfDay(last_day) };
}
