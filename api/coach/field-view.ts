import type { FieldAthlete, FieldRepetition, FieldView } from '../../shared/schemas/coach/field-view.ts';
import type { Judgement } from '../../shared/schemas/coach/judgement.ts';
import type { PlanSet } from '../../shared/schemas/coach/plan.ts';
import type { RepetitionLine } from '../../shared/schemas/repetition.ts';
import type { Mounting } from '../../shared/words.ts';
import { getSessionWithRepetitions } from '../store/sessions.ts';
import { nowUtc, type Store } from '../store/store.ts';
import { currentPoints } from './athlete-records.ts';
import { readCoachSettings } from './coach-settings.ts';
import { addDays } from './dates.ts';
import { isGrowing } from './growth.ts';
import { judge } from './judge.ts';
import { planTotals } from './plan-totals.ts';
import type { LengthUnit } from './quantity-words.ts';
import { listRatings } from './ratings.ts';
import { getSessionPlan, runningOrder } from './session-plans.ts';
import { stopAdvice } from './stop-advice.ts';
import { leadQuantity, techniquePoint } from './technique-points.ts';
import { type Condition, conditionOf, type HistoryValue, valueHistory } from './value-history.ts';

/** No baseline reaches further back (dsp/athlete/baseline.ts: 180 days for adults). */
const HISTORY_DAYS = 181;
/** A baseline rests on the latest 40; the rest leaves room for today's own. */
const HISTORY_MOST = 64;

/** Answers of the last few sessions, each with the state of the database that it was made of. */
const answers = new WeakMap<Store, Map<string, { state: string; view: FieldView }>>();
const ANSWERS_KEPT = 20;

/**
 * Everything the field screen shows of a session: athletes in running order, each with the latest repetition judged.
 * Several devices ask every two seconds, so an answer is made anew only after something was written.
 */
export function fieldView(store: Store, session_id: number, length: LengthUnit = 'm'): FieldView {
  const state = writtenState(store);
  const known = answers.get(store) ?? new Map<string, { state: string; view: FieldView }>();
  const key = `${session_id}.${length}`;
  const last = known.get(key);
  if (last?.state === state) return { ...last.view, answered_utc: nowUtc() };
  const view = makeFieldView(store, session_id, length);
  if (known.size >= ANSWERS_KEPT) known.clear();
  known.set(key, { state, view });
  answers.set(store, known);
  return view;
}

/** Changes with every write, by this connection or another. */
function writtenState(store: Store): string {
  const { own } = store.prepare('SELECT total_changes() AS own').get() as { own: number };
  return `${own}.${store.database.pragma('data_version', { simple: true })}`;
}

function makeFieldView(store: Store, session_id: number, length: LengthUnit): FieldView {
  const session = getSessionWithRepetitions(store, session_id);
  const { stop_rule } = readCoachSettings(store);
  const { sets } = getSessionPlan(store, session_id);
  const names = new Map(
    store
      .all(store.query.selectFrom('athletes').select(['athlete_id', 'name']))
      .map((row) => [row.athlete_id, row.name]),
  );
  const ran = session.repetitions.filter((repetition) => repetition.state !== 'planned');
  const athletes = runningOrder(store, session_id).map((athlete_id) => {
    const own = ran.filter((repetition) => repetition.athlete_id === athlete_id);
    return fieldAthlete(
      store,
      { athlete_id, name: names.get(athlete_id) ?? '?' },
      own,
      sets,
      session,
      stop_rule,
      length,
    );
  });
  return {
    session_id,
    session_date: session.session_date,
    title: session.title,
    answered_utc: nowUtc(),
    stop_rule,
    totals: sets.length > 0 ? planTotals(sets) : null,
    athletes,
    latest_athlete_id: latestOf(ran)?.athlete_id ?? null,
  };
}

/** One repetition judged: what the field screen, the repetition's report and the spoken result are made of. */
export function judgeRepetition(
  store: Store,
  repetition: RepetitionLine,
  surface: string | null,
  quantities: readonly string[],
  stop_after: number | null,
  length: LengthUnit = 'm',
): Judgement[] {
  const condition: Condition = { ...conditionOf(repetition), surface: repetition.surface ?? surface };
  const date = repetition.session_date;
  const growing = isGrowing(store, repetition.athlete_id, date);
  const from = addDays(date, -HISTORY_DAYS);
  return quantities.flatMap((quantity) => {
    const history = valueHistory(store, repetition.athlete_id, quantity, condition, from, date, HISTORY_MOST);
    const own = history.find((entry) => entry.repetition_id === repetition.repetition_id);
    if (!own) return [];
    const earlier = history.filter((entry) => isBefore(entry, own));
    return [judge({ ...own, quantity }, earlier, { date, growing, stop_after, length })];
  });
}

/** Contact time, the quantity of the point, speed: in the order they are shown. */
export function quantitiesToJudge(point_quantity: string | null): string[] {
  return [...new Set(['contact_time_ms', ...(point_quantity ? [point_quantity] : []), 'speed_max_mps'])];
}

/** The current technique point of an athlete with the quantity that the sensors' mounting can give. */
export function pointOn(store: Store, athlete_id: number, date: string): FieldAthlete['point'] {
  const current = currentPoints(store, athlete_id, date)[0];
  const point = current ? techniquePoint(current.point) : null;
  if (!current || !point) return null;
  return { point: current.point, name: current.name, quantity: leadQuantity(point, mountingOf(store, athlete_id)) };
}

function fieldAthlete(
  store: Store,
  athlete: { athlete_id: number; name: string },
  own: readonly RepetitionLine[],
  sets: readonly PlanSet[],
  session: { session_date: string; surface: string | null },
  stop_rule: FieldView['stop_rule'],
  length: LengthUnit,
): FieldAthlete {
  const point = pointOn(store, athlete.athlete_id, session.session_date);
  const latest = latestOf(own);
  const judgements =
    latest && latest.state === 'analysed'
      ? judgeRepetition(
          store,
          latest,
          session.surface,
          quantitiesToJudge(point?.quantity ?? null),
          stop_rule.beyond_in_a_row,
          length,
        )
      : [];
  const sentence = leadingSentence(judgements, latest, point?.quantity ?? null);
  return {
    ...athlete,
    point,
    done: own.length,
    planned: sets.length > 0 ? planTotals(sets).repetitions : null,
    next_set: setAt(sets, own.length),
    latest: latest ? fieldRepetition(latest) : null,
    judgements,
    sentence,
    stop: stopAdvice(judgements, stop_rule),
    ratings: latest ? listRatings(store, latest.repetition_id) : [],
  };
}

/** The sentence of what is beyond normal, the unwanted and the technique point's first; else the point's, else contact time's. */
export function leadingSentence(
  judgements: readonly Judgement[],
  latest: RepetitionLine | null,
  point_quantity: string | null,
): string {
  if (latest === null) return 'No repetition yet.';
  if (latest.fault) return latest.fault.message;
  if (latest.state !== 'analysed') return 'Recorded; the result is on its way.';
  const ofPoint = judgements.find((judgement) => judgement.quantity === point_quantity);
  const first = [ofPoint, ...judgements].filter((judgement) => judgement?.beyond);
  const beyond = first.find((judgement) => judgement?.worse) ?? first[0];
  return (beyond ?? ofPoint ?? judgements[0])?.sentence ?? 'No contact could be measured in this repetition.';
}

/** Who just ran: by the recording's own clock, or by when the repetition came in where the recording has none. */
function latestOf(repetitions: readonly RepetitionLine[]): RepetitionLine | null {
  const time = (repetition: RepetitionLine) => repetition.recorded_utc ?? repetition.created_utc;
  return (
    [...repetitions].sort((a, b) => time(a).localeCompare(time(b)) || a.order_number - b.order_number).at(-1) ?? null
  );
}

/** The set that the repetition after so many done ones belongs to. */
function setAt(sets: readonly PlanSet[], done: number): PlanSet | null {
  let end = 0;
  for (const set of sets) {
    end += set.repetitions;
    if (done < end) return set;
  }
  return null;
}

function isBefore(entry: HistoryValue, own: HistoryValue): boolean {
  if (entry.session_date !== own.session_date) return entry.session_date < own.session_date;
  if (entry.session_id !== own.session_id) return entry.session_id < own.session_id;
  return entry.order_number < own.order_number;
}

/** Where the athlete's sensors sat last; as assigned when nothing was recorded yet. */
function mountingOf(store: Store, athlete_id: number): Mounting | null {
  const row = store
    .prepare('SELECT mounting FROM recordings WHERE athlete_id = ? ORDER BY recording_id DESC LIMIT 1')
    .get(athlete_id) as { mounting: Mounting } | undefined;
  if (row) return row.mounting;
  const assigned = store.prepare('SELECT mounting FROM athlete_sensors WHERE athlete_id = ? LIMIT 1').get(athlete_id);
  return (assigned as { mounting: Mounting } | undefined)?.mounting ?? null;
}

function fieldRepetition(line: RepetitionLine): FieldRepetition {
  return {
    repetition_id: line.repetition_id,
    order_number: line.order_number,
    set_number: line.set_number,
    state: line.state,
    recorded_utc: line.recorded_utc,
    updated_utc: line.updated_utc,
    distance_m: line.course_distance_m,
    effort_percent: line.effort_percent,
    time_s: line.course_time_s,
    timing_method: line.timing_method,
    speed_max_mps: line.figures?.speed_max_mps ?? null,
    fault: line.fault,
  };
}
