import type { FieldAthlete, FieldRepetition, FieldView } from '../../../shared/schemas/coach/field-view.ts';
import type { PlanSet } from '../../../shared/schemas/coach/plan.ts';
import type { RepetitionLine } from '../../../shared/schemas/repetition.ts';
import { listRepetitions } from '../../store/repetitions.ts';
import { getSession } from '../../store/sessions.ts';
import { nowUtc, type Store } from '../../store/store.ts';
import { readCoachSettings } from '../coach-settings.ts';
import { planTotals } from '../plans/plan-totals.ts';
import { runningOrder, storedPlan } from '../plans/session-plans.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import { judgeStoredRepetition } from './judge-stored-repetition.ts';
import { clockQuestion } from './clock-question.ts';
import { listRatings } from './ratings.ts';
import { oneSentence } from './verdict.ts';
import { cautionsFor } from '../words/cautions.ts';

/** Answers of the last few sessions, each with the state of the database that it was made of. */
const answers = new WeakMap<Store, Map<string, { state: string; view: FieldView }>>();
const ANSWERS_KEPT = 20;

/**
 * Everything the field screen shows of a session: athletes in running order, each with the latest repetition judged.
 * Several devices ask whenever something was written, so an answer is made anew only then.
 * @param only as if no other repetition of the session had been run yet: how it looked at that time
 */
export function fieldView(
  store: Store,
  session_id: number,
  length: LengthUnit = 'm',
  only?: ReadonlySet<number>,
): FieldView {
  if (only) return makeFieldView(store, session_id, length, only);
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
export function writtenState(store: Store): string {
  const { own } = store.prepare('SELECT total_changes() AS own').get() as { own: number };
  return `${own}.${store.database.pragma('data_version', { simple: true })}`;
}

function makeFieldView(store: Store, session_id: number, length: LengthUnit, only?: ReadonlySet<number>): FieldView {
  const session = getSession(store, session_id);
  const { stop_rule } = readCoachSettings(store);
  const { sets } = storedPlan(store, session_id);
  const names = new Map(
    store
      .all(store.query.selectFrom('athletes').select(['athlete_id', 'name']))
      .map((row) => [row.athlete_id, row.name]),
  );
  const ran = listRepetitions(store, { session_id }).filter(
    (repetition) => repetition.state !== 'planned' && (only?.has(repetition.repetition_id) ?? true),
  );
  const athletes = runningOrder(store, session_id).map((athlete_id) => {
    const own = ran.filter((repetition) => repetition.athlete_id === athlete_id);
    return fieldAthlete(store, { athlete_id, name: names.get(athlete_id) ?? '?' }, own, sets, session, length);
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
    cautions: cautionsFor(athletes),
  };
}

function fieldAthlete(
  store: Store,
  athlete: { athlete_id: number; name: string },
  own: readonly RepetitionLine[],
  sets: readonly PlanSet[],
  session: { session_date: string; surface: string | null },
  length: LengthUnit,
): FieldAthlete {
  const latest = latestOf(own);
  const judged = judgeStoredRepetition(store, athlete.athlete_id, session, latest, { length });
  return {
    ...athlete,
    focus: judged.focus,
    returning: judged.returning,
    done: own.length,
    planned: sets.length > 0 ? planTotals(sets).repetitions : null,
    next_set: setAt(sets, own.length),
    latest: latest ? fieldRepetition(store, latest) : null,
    judgements: judged.judgements,
    verdict: judged.verdict,
    sentence: oneSentence(judged.verdict),
    stop: judged.stop,
    ratings: latest ? listRatings(store, latest.repetition_id) : [],
  };
}

/**
 * Who just ran: by the recording's own clock, or by when the repetition came in where the recording has none or its clock
 * tells another day than the session.
 */
function latestOf(repetitions: readonly RepetitionLine[]): RepetitionLine | null {
  const time = (repetition: RepetitionLine) =>
    repetition.recorded_utc !== null && clockQuestion(repetition) === ''
      ? repetition.recorded_utc
      : repetition.created_utc;
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

function fieldRepetition(store: Store, line: RepetitionLine): FieldRepetition {
  return {
    repetition_id: line.repetition_id,
    order_number: line.order_number,
    set_number: line.set_number,
    state: line.state,
    recorded_utc: line.recorded_utc,
    clock_question: clockQuestion(line),
    rest_from_utc: restFrom(store, line),
    distance_m: line.course_distance_m,
    effort_percent: line.effort_percent,
    time_s: line.course_time_s,
    timing_method: line.timing_method,
    speed_max_mps: line.figures?.speed_max_mps ?? null,
    fault: line.fault,
    quality: line.analysis_id === null ? [] : qualityOf(store, line.analysis_id),
  };
}

/** The last toe-off on the recording's clock; when it came in, where the clock or the contacts cannot tell. */
function restFrom(store: Store, line: RepetitionLine): string {
  if (line.recorded_utc === null || line.analysis_id === null || clockQuestion(line) !== '') return line.created_utc;
  const { last_s } = store
    .prepare('SELECT max(coalesce(toe_off_s, touchdown_s)) AS last_s FROM contacts WHERE analysis_id = ?')
    .get(line.analysis_id) as { last_s: number | null };
  return new Date(Date.parse(line.recorded_utc) + 1000 * (last_s ?? 0)).toISOString();
}

function qualityOf(store: Store, analysis_id: number): FieldRepetition['quality'] {
  const row = store.first(store.query.selectFrom('analyses').select('quality').where('analysis_id', '=', analysis_id));
  return JSON.parse(row?.quality ?? '[]') as FieldRepetition['quality'];
}
