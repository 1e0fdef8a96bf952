import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import type { AthleteFocusNow } from '../../../shared/schemas/coach/field-view.ts';
import type { Judgement, Verdict } from '../../../shared/schemas/coach/judgement.ts';
import type { RepetitionLine } from '../../../shared/schemas/repetition.ts';
import type { Store } from '../../store/store.ts';
import type { RepetitionValueRow } from '../../store/coach-tables.ts';
import { readCoachSettings } from '../coach-settings.ts';
import { addDays } from '../../../shared/dates.ts';
import { isGrowing } from '../../measuring/growth.ts';
import { returningSince } from '../returning.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import { aimsWith } from './aims.ts';
import { blockViews } from './block.ts';
import { focusNow, focusOn } from './focus-on.ts';
import { judge, type MarkedValue, markValue } from './judge.ts';
import { stopAdvice } from './stop-advice.ts';
import { type Condition, conditionOf, type PlainValue, plainHistories } from './value-history.ts';
import { verdictOf } from './verdict.ts';

/** No baseline reaches further back (dsp/athlete/baseline.ts: 180 days for adults). */
const HISTORY_DAYS = 181;
/** A baseline rests on the latest 40; the rest leaves room for today's own. */
const HISTORY_MOST = 54;

/** Everything that is said of one repetition. */
export interface JudgedRepetition {
  focus: AthleteFocusNow | null;
  /** Contact time, the focus's quantity, speed, then what was asked for besides. */
  judgements: Judgement[];
  /** How many of the judgements, from the first, the verdict is made of. */
  leading: number;
  verdict: Verdict;
  /** What the coach's stop rule says; empty when it says nothing. */
  stop: string;
  returning: boolean;
}

/** Contact time, the quantity of the focus, speed: in the order they are shown. */
export function quantitiesToJudge(focus_quantity: string | null): string[] {
  return [...new Set(['contact_time_ms', ...(focus_quantity ? [focus_quantity] : []), 'speed_max_mps'])];
}

/**
 * One repetition judged: what field screen, repetition page, spoken result and reports are made of, so that all say the same.
 * @param latest null when the athlete has not run; one without a result is said to be on its way
 * @param more quantities to judge besides
 */
export function judgeStoredRepetition(
  store: Store,
  athlete_id: number,
  session: { session_date: string; surface: string | null },
  latest: RepetitionLine | null,
  options: { more?: readonly string[]; length?: LengthUnit; words?: JudgementWords } = {},
): JudgedRepetition {
  const focus = focusOn(store, athlete_id, session.session_date);
  const leading = quantitiesToJudge(focus?.quantity ?? null);
  const returning = returningSince(store, athlete_id) !== null;
  const analysed = latest?.state === 'analysed' ? latest : null;
  const quantities = [...new Set([...leading, ...(options.more ?? [])])];
  const judgements = analysed ? judgeAll(store, analysed, session.surface, quantities, options) : [];
  const ofVerdict = judgements.filter((judgement) => leading.includes(judgement.quantity));
  const stop = stopAdvice(ofVerdict, readCoachSettings(store).stop_rule, options.words);
  return {
    focus: focus && focusNow(focus, options.words),
    judgements,
    leading: ofVerdict.length,
    verdict: verdictOf(ofVerdict, latest, {
      focus_quantity: focus?.quantity ?? null,
      cue: focus?.cue ?? '',
      stop,
      length: options.length,
      words: options.words,
    }),
    stop,
    returning,
  };
}

/** The given quantities of an analysed repetition, each judged. */
export function judgeAll(
  store: Store,
  repetition: RepetitionLine,
  surface: string | null,
  quantities: readonly string[],
  { length = 'm', words }: { length?: LengthUnit; words?: JudgementWords } = {},
): Judgement[] {
  const { athlete_id, session_date: date } = repetition;
  const condition: Condition = { ...conditionOf(repetition), surface: repetition.surface ?? surface };
  const today = circumstancesOf(store, athlete_id, date);
  const histories = plainHistories(store, athlete_id, quantities, condition, historyLimits(date));
  const blocks = blockViews(store, athlete_id, quantities, condition, date, today.aimOf, length, words);
  const own = ownValues(store, repetition.analysis_id, quantities);
  return quantities.flatMap((quantity) => {
    const value = own.get(quantity);
    if (!value) return [];
    const earlier = (histories.get(quantity) ?? []).filter((entry) => isBefore(entry, repetition));
    return [judge(value, earlier, { ...today, since: blocks.get(quantity) ?? null, length, words })];
  });
}

/** One quantity of an athlete's analysed repetitions of one session, each compared at its own effort and course. */
export function markEach(
  store: Store,
  repetitions: readonly RepetitionLine[],
  surface: string | null,
  quantity: string,
): Map<number, MarkedValue> {
  const marked = new Map<number, MarkedValue>();
  if (repetitions.length === 0) return marked;
  const { athlete_id, session_date: date } = repetitions[0];
  const today = circumstancesOf(store, athlete_id, date);
  const histories = new Map<string, PlainValue[]>();
  for (const repetition of repetitions) {
    const condition: Condition = { ...conditionOf(repetition), surface: repetition.surface ?? surface };
    const key = JSON.stringify(condition);
    const history =
      histories.get(key) ??
      plainHistories(store, athlete_id, [quantity], condition, historyLimits(date)).get(quantity) ??
      [];
    histories.set(key, history);
    const value = ownValues(store, repetition.analysis_id, [quantity]).get(quantity);
    if (!value) continue;
    const earlier = history.filter((entry) => isBefore(entry, repetition));
    marked.set(repetition.repetition_id, markValue(value, earlier, today));
  }
  return marked;
}

/** What holds for every repetition of an athlete on one day. */
function circumstancesOf(store: Store, athlete_id: number, date: string) {
  return {
    date,
    growing: isGrowing(store, athlete_id, date),
    returning: returningSince(store, athlete_id) !== null,
    aimOf: aimsWith(focusOn(store, athlete_id, date)?.of ?? null),
  };
}

function historyLimits(date: string) {
  return { from: addDays(date, -HISTORY_DAYS), to: date, most: HISTORY_MOST };
}

/** Values of one analysis, by quantity. */
function ownValues(
  store: Store,
  analysis_id: number | null,
  quantities: readonly string[],
): Map<string, RepetitionValueRow> {
  const rows = store
    .prepare('SELECT * FROM repetition_values WHERE analysis_id = ? AND quantity IN (SELECT value FROM json_each(?))')
    .all(analysis_id, JSON.stringify(quantities));
  return new Map((rows as RepetitionValueRow[]).map((row) => [row.quantity, row]));
}

function isBefore(entry: PlainValue, own: RepetitionLine): boolean {
  if (entry.session_date !== own.session_date) return entry.session_date < own.session_date;
  if (entry.session_id !== own.session_id) return entry.session_id < own.session_id;
  return entry.order_number < own.order_number;
}
