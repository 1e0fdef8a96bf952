import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { PlanQuestion, PlanSet, SessionPlan, SessionPlanBody } from '../../../shared/schemas/coach/plan.ts';
import { getAthlete } from '../../store/athletes.ts';
import { getGroup } from '../../store/groups.ts';
import { getSession } from '../../store/sessions.ts';
import { nowUtc, type Store } from '../../store/store.ts';
import { returningAthletes } from '../returning.ts';
import { checkPlan, type TrainingDay } from './check-plan.ts';
import { readCoachSettings } from '../coach-settings.ts';
import { coachQuery } from '../../store/coach-tables.ts';
import { addDays } from '../../../shared/dates.ts';
import { planTotals } from './plan-totals.ts';

/** An effort from here on counts as full speed. */
export const FULL_SPEED_PERCENT = 95;

/** A session's plan (empty when none was kept) with its check against limits and calendar. */
export function getSessionPlan(store: Store, session_id: number, words: JudgementWords = JUDGEMENT_EN): SessionPlan {
  const session = getSession(store, session_id);
  const { template, sets } = storedPlan(store, session_id);
  const athlete_ids = runningOrder(store, session_id);
  return {
    session_id,
    session_date: session.session_date,
    template,
    sets,
    athlete_ids,
    check: checkQuestion(store, { session_date: session.session_date, sets, athlete_ids }, session_id, words),
  };
}

/** A session's sets without their check; empty without a plan. */
export function storedPlan(store: Store, session_id: number): { template: string | null; sets: PlanSet[] } {
  const row = store.first(
    coachQuery(store).selectFrom('session_plans').selectAll().where('session_id', '=', session_id),
  );
  return { template: row?.template ?? null, sets: row ? (JSON.parse(row.sets) as PlanSet[]) : [] };
}

export function setSessionPlan(
  store: Store,
  session_id: number,
  body: SessionPlanBody,
  words: JudgementWords = JUDGEMENT_EN,
): SessionPlan {
  return store.transaction(() => {
    getSession(store, session_id);
    const query = coachQuery(store);
    const kept = { template: body.template, sets: JSON.stringify(body.sets), updated_utc: nowUtc() };
    store.run(
      query
        .insertInto('session_plans')
        .values({ session_id, ...kept })
        .onConflict((conflict) => conflict.column('session_id').doUpdateSet(kept)),
    );
    store.run(query.deleteFrom('session_athletes').where('session_id', '=', session_id));
    for (const [index, athlete_id] of [...new Set(body.athlete_ids)].entries()) {
      getAthlete(store, athlete_id);
      store.run(query.insertInto('session_athletes').values({ session_id, athlete_id, order_number: index + 1 }));
    }
    return getSessionPlan(store, session_id, words);
  });
}

/**
 * Athletes of a session in running order: as the plan says, then anyone else who ran; without a plan, the group's order.
 */
export function runningOrder(store: Store, session_id: number): number[] {
  const session = getSession(store, session_id);
  const planned = store
    .all(
      coachQuery(store)
        .selectFrom('session_athletes')
        .innerJoin('athletes', 'athletes.athlete_id', 'session_athletes.athlete_id')
        .select('session_athletes.athlete_id')
        .where('session_id', '=', session_id)
        .where('athletes.deleted_utc', 'is', null)
        .orderBy('order_number'),
    )
    .map((row) => row.athlete_id);
  if (planned.length > 0) return [...new Set([...planned, ...ranIn(store, session_id)])];
  const group = session.group_id === null ? [] : groupMembers(store, session.group_id);
  const own = session.athlete_id === null ? [] : [session.athlete_id];
  return [...new Set([...group, ...own, ...ranIn(store, session_id)])];
}

function groupMembers(store: Store, group_id: number): number[] {
  return getGroup(store, group_id, true).athlete_ids;
}

/** Athletes with a repetition in the session, by their first one. */
function ranIn(store: Store, session_id: number): number[] {
  return store
    .all(
      store.query
        .selectFrom('repetitions')
        .innerJoin('athletes', 'athletes.athlete_id', 'repetitions.athlete_id')
        .select(['repetitions.athlete_id', ({ fn }) => fn.min('repetitions.order_number').as('first')])
        .where('session_id', '=', session_id)
        .where('repetitions.deleted_utc', 'is', null)
        .where('athletes.deleted_utc', 'is', null)
        .groupBy('repetitions.athlete_id')
        .orderBy('first'),
    )
    .map((row) => row.athlete_id);
}

/** Checks a plan that is not kept yet. */
export function checkQuestion(
  store: Store,
  question: PlanQuestion,
  session_id: number | null = null,
  words: JudgementWords = JUDGEMENT_EN,
) {
  const { plan_limits } = readCoachSettings(store);
  const history = trainingDays(store, question.athlete_ids, question.session_date, session_id);
  const returning = returningAthletes(store);
  const athletes = question.athlete_ids.map((athlete_id) => ({ returning: returning.has(athlete_id) }));
  return checkPlan({ sets: question.sets }, plan_limits, question.session_date, history, athletes, words);
}

/**
 * Other training days of these athletes within two weeks either way. A day holds what was run, or what is planned where
 * nothing was run yet; of several athletes, the one who did most counts.
 */
export function trainingDays(
  store: Store,
  athlete_ids: readonly number[],
  date: string,
  without_session_id: number | null,
): TrainingDay[] {
  if (athlete_ids.length === 0) return [];
  // What one athlete does on one day adds up, over the sessions of that day.
  const sums = new Map<string, TrainingDay>();
  const keep = (athlete_id: number, date: string, distance_m: number, speed_distance_m: number) => {
    const key = `${athlete_id}|${date}`;
    const sum = sums.get(key) ?? { date, distance_m: 0, speed_distance_m: 0 };
    sum.distance_m += distance_m;
    sum.speed_distance_m += speed_distance_m;
    sums.set(key, sum);
  };
  const from = addDays(date, -14);
  const to = addDays(date, 7);
  const run = store.all(
    store.query
      .selectFrom('repetitions')
      .innerJoin('sessions', 'sessions.session_id', 'repetitions.session_id')
      .select([
        'session_date',
        'repetitions.athlete_id',
        'sessions.session_id',
        ({ fn }) => fn.sum<number>('course_distance_m').as('distance_m'),
        ({ eb, fn }) =>
          fn
            .sum<number>(
              eb
                .case()
                .when('effort_percent', '>=', FULL_SPEED_PERCENT)
                .then(eb.ref('course_distance_m'))
                .else(0)
                .end(),
            )
            .as('speed_distance_m'),
      ])
      .where('repetitions.athlete_id', 'in', [...athlete_ids])
      .where('session_date', '>=', from)
      .where('session_date', '<=', to)
      .where('repetitions.deleted_utc', 'is', null)
      .where('sessions.deleted_utc', 'is', null)
      .groupBy(['repetitions.athlete_id', 'sessions.session_id']),
  );
  for (const row of run) {
    if (row.session_id === without_session_id) continue;
    keep(row.athlete_id, row.session_date, row.distance_m ?? 0, row.speed_distance_m ?? 0);
  }
  const held = new Set(run.map((row) => row.session_id));
  const planned = store.all(
    coachQuery(store)
      .selectFrom('session_plans')
      .innerJoin('sessions', 'sessions.session_id', 'session_plans.session_id')
      .innerJoin('session_athletes', 'session_athletes.session_id', 'session_plans.session_id')
      .select(['session_date', 'session_athletes.athlete_id', 'session_plans.session_id', 'session_plans.sets'])
      .where('session_athletes.athlete_id', 'in', [...athlete_ids])
      .where('session_date', '>=', from)
      .where('session_date', '<=', to)
      .where('sessions.deleted_utc', 'is', null),
  );
  for (const row of planned) {
    if (row.session_id === without_session_id || held.has(row.session_id)) continue;
    const totals = planTotals(JSON.parse(row.sets) as PlanSet[]);
    keep(row.athlete_id, row.session_date, totals.distance_m, totals.speed_distance_m);
  }
  const days = new Map<string, TrainingDay>();
  for (const { date, distance_m, speed_distance_m } of sums.values()) {
    const day = days.get(date) ?? { date, distance_m: 0, speed_distance_m: 0 };
    day.distance_m = Math.max(day.distance_m, distance_m);
    day.speed_distance_m = Math.max(day.speed_distance_m, speed_distance_m);
    days.set(date, day);
  }
  return [...days.values()];
}
