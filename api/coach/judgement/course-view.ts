import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { CourseView, FocusView, RunCondition } from '../../../shared/schemas/coach/course-view.ts';
import type { BlockView } from '../../../shared/schemas/coach/judgement.ts';
import { getAthlete } from '../../store/athletes.ts';
import type { Store } from '../../store/store.ts';
import { addDays } from '../../../shared/dates.ts';
import { checkFocus, listFocuses } from '../athlete-records.ts';
import { isGrowing } from '../../measuring/growth.ts';
import { returningSince } from '../returning.ts';
import { cautionsFor } from '../words/cautions.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import { aimsWith } from './aims.ts';
import { blockViews } from './block.ts';
import { focusOn } from './focus-on.ts';
import { findFocus } from '../own-focuses.ts';
import { tellFocus } from '../focuses.ts';
import { quantityCourse } from './quantity-course.ts';
import { asCondition, chooseCondition, runConditions } from './run-conditions.ts';
import { type HistoryValue, valueHistories, valueHistory } from './value-history.ts';

/** A year and a bit: the view never looks further back. */
export const SHOWN_DAYS = 400;

/** One quantity of one athlete over time, at one effort and course. */
export function courseView(
  store: Store,
  athlete_id: number,
  question: { quantity?: string; condition?: string; length?: LengthUnit },
  today: string,
  words: JudgementWords = JUDGEMENT_EN,
): CourseView {
  const athlete = getAthlete(store, athlete_id);
  const conditions = runConditions(store, athlete_id);
  const condition = chooseCondition(conditions, question.condition);
  const growing = isGrowing(store, athlete_id, today);
  const returning = returningSince(store, athlete_id) !== null;
  const quantities = condition ? measuredQuantities(store, athlete_id) : [];
  const quantity = question.quantity ?? 'contact_time_ms';
  const from = addDays(today, -SHOWN_DAYS);
  const history = condition ? valueHistory(store, athlete_id, quantity, asCondition(condition), { from }) : [];
  return {
    athlete_id,
    name: athlete.name,
    growing,
    conditions,
    condition,
    quantities,
    course: condition
      ? quantityCourse(quantity, history, {
          date: today,
          growing,
          block:
            blocksOf(store, athlete_id, [quantity], condition, today, question.length, words).get(quantity) ?? null,
          length: question.length,
          words,
        })
      : null,
    cautions: cautionsFor([{ returning }], words),
  };
}

/** One focus of one athlete: its meaning, its numbers over time, the coach's own ratings. */
export function focusView(
  store: Store,
  athlete_id: number,
  key: string,
  today: string,
  length: LengthUnit = 'm',
  words: JudgementWords = JUDGEMENT_EN,
): FocusView {
  checkFocus(store, key);
  const athlete = getAthlete(store, athlete_id);
  const focus = findFocus(store, key)!;
  const condition = chooseCondition(runConditions(store, athlete_id));
  const growing = isGrowing(store, athlete_id, today);
  const names = focus.quantities.map(({ quantity }) => quantity);
  const from = addDays(today, -SHOWN_DAYS);
  const histories = condition
    ? valueHistories(store, athlete_id, names, asCondition(condition), { from })
    : new Map<string, HistoryValue[]>();
  const blocks = condition ? blocksOf(store, athlete_id, names, condition, today, length, words) : null;
  const courses = condition
    ? focus.quantities
        .map(({ quantity }) => {
          const history = histories.get(quantity) ?? [];
          return quantityCourse(quantity, history, {
            date: today,
            growing,
            block: blocks?.get(quantity) ?? null,
            length,
            words,
          });
        })
        .filter((course) => course.repetitions.length > 0)
    : [];
  return {
    athlete_id,
    name: athlete.name,
    focus: tellFocus(focus, words),
    periods: listFocuses(store, athlete_id, today, words).filter((period) => period.focus === key),
    condition,
    courses,
    ratings: ratingsOf(store, athlete_id, key),
    cautions: cautionsFor([{ returning: returningSince(store, athlete_id) !== null }], words),
  };
}

/** Before and after of the block; of an athlete who is returning from an injury nothing is compared. */
export function blocksOf(
  store: Store,
  athlete_id: number,
  quantities: readonly string[],
  condition: RunCondition,
  date: string,
  length: LengthUnit = 'm',
  words: JudgementWords = JUDGEMENT_EN,
): Map<string, BlockView> {
  if (returningSince(store, athlete_id)) return new Map();
  const aimOf = aimsWith(focusOn(store, athlete_id, date)?.of ?? null);
  return blockViews(store, athlete_id, quantities, asCondition(condition), date, aimOf, length, words);
}

function ratingsOf(store: Store, athlete_id: number, aspect: string): FocusView['ratings'] {
  const rows = store
    .prepare(
      `SELECT g.repetition_id, g.aspect, g.rating, g.note,
              EXISTS (SELECT 1 FROM rating_photos p WHERE p.repetition_id = g.repetition_id AND p.aspect = g.aspect) AS has_photo, s.session_date AS date, r.order_number
       FROM repetition_ratings g JOIN repetitions r ON r.repetition_id = g.repetition_id JOIN sessions s ON s.session_id = r.session_id
       WHERE r.athlete_id = ? AND g.aspect = ? AND r.deleted_utc IS NULL AND s.deleted_utc IS NULL
       ORDER BY s.session_date DESC, r.order_number DESC LIMIT 200`,
    )
    .all(athlete_id, aspect) as FocusView['ratings'];
  return rows.map((row) => ({ ...row, has_photo: Boolean(row.has_photo) }));
}

/** Quantities measured in the athlete's latest repetitions. */
function measuredQuantities(store: Store, athlete_id: number): string[] {
  return (
    store
      .prepare(
        `SELECT DISTINCT quantity FROM repetition_values WHERE analysis_id IN
           (SELECT analysis_id FROM repetitions WHERE athlete_id = ? AND analysis_id IS NOT NULL AND deleted_utc IS NULL
            ORDER BY repetition_id DESC LIMIT 30) ORDER BY quantity`,
      )
      .all(athlete_id) as { quantity: string }[]
  ).map((row) => row.quantity);
}
