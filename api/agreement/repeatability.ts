import { type IntraclassForm, intraclassCorrelation, MCGRAW_WONG, reliability } from '../../dsp/agreement/index.ts';
import { mean } from '../../dsp/numeric/statistics.ts';
import { quantityDefinition, REPEATABLE_QUANTITIES } from '../../shared/coach-quantities.ts';
import { FaultError, fault } from '../../shared/fault.ts';
import type { RepeatabilityOrder, RepeatabilityStudy } from '../../shared/schemas/agreement.ts';
import type { StudyPeople } from './study-people.ts';
import type { Store } from '../store/store.ts';

interface Row {
  athlete_id: number;
  name: string;
  session_id: number;
  session_date: string;
  value: number;
}

/**
 * How repeatable a quantity is from session to session: each athlete's mean over the repetitions of a session is a trial.
 * Compared are the last sessions, as many as every athlete with two or more has, at most four.
 * @throws FaultError OPTION_UNREADABLE for an unknown quantity, EXPORT_EMPTY where there are not two athletes with two sessions
 */
export function repeatabilityStudy(store: Store, order: RepeatabilityOrder, people: StudyPeople): RepeatabilityStudy {
  const definition = quantityDefinition(order.quantity);
  if (!definition || !REPEATABLE_QUANTITIES.includes(order.quantity)) throw unknownQuantity(order.quantity);
  const rows = rowsOf(store, order).filter((row) => people.mayRead(row.athlete_id));
  const athletes = sessionMeans(rows, people);
  const able = athletes.filter((athlete) => athlete.means.length >= 2);
  if (able.length < 2) throw tooFew(able.length);
  const sessions = Math.min(4, ...able.map((athlete) => athlete.means.length));
  const compared = able.map(({ dates, means, repetitions, ...athlete }) => ({
    ...athlete,
    dates: dates.slice(-sessions),
    means: means.slice(-sessions),
    repetitions: repetitions.slice(-sessions),
  }));
  const table = compared.map((athlete) => athlete.means);
  const { mean_change, typical_error, typical_error_percent, minimal_detectable_change } = reliability(table);
  const icc = (form: IntraclassForm) => {
    const { model, value, low, high } = intraclassCorrelation(table, form);
    return { form: MCGRAW_WONG[form], model, value, low, high };
  };
  return {
    quantity: order.quantity,
    unit: definition.unit,
    sessions,
    athletes: compared,
    left_out: athletes.filter((athlete) => athlete.means.length < 2).map((athlete) => athlete.name),
    mean_change,
    typical_error,
    typical_error_percent,
    minimal_detectable_change,
    icc: icc('2,1'),
    icc_consistency: icc('3,1'),
  };
}

function rowsOf(store: Store, order: RepeatabilityOrder): Row[] {
  // The column's name comes from the closed list above.
  return store
    .prepare(
      `SELECT r.athlete_id, a.name, s.session_id, s.session_date, n.${order.quantity} AS value
       FROM repetitions r JOIN sessions s USING (session_id) JOIN athletes a ON a.athlete_id = r.athlete_id
         JOIN analyses n ON n.analysis_id = r.analysis_id
       WHERE n.${order.quantity} IS NOT NULL AND r.deleted_utc IS NULL AND s.deleted_utc IS NULL AND a.deleted_utc IS NULL
         AND (@from IS NULL OR s.session_date >= @from) AND (@to IS NULL OR s.session_date <= @to)
         AND (@low IS NULL OR r.effort_percent >= @low) AND (@high IS NULL OR r.effort_percent <= @high)
         AND (@distance IS NULL OR abs(r.course_distance_m - @distance) < 0.01)
         AND (@group IS NULL OR r.athlete_id IN (SELECT athlete_id FROM group_members WHERE group_id = @group))
       ORDER BY a.name, r.athlete_id, s.session_date, s.session_id`,
    )
    .all({
      from: order.from ?? null,
      to: order.to ?? null,
      low: order.effort_from_percent ?? null,
      high: order.effort_to_percent ?? null,
      distance: order.course_distance_m ?? null,
      group: order.group_id ?? null,
    }) as Row[];
}

function sessionMeans(rows: Row[], people: StudyPeople): RepeatabilityStudy['athletes'] {
  const athletes = new Map<number, Map<number, Row[]>>();
  for (const row of rows) {
    const sessions = athletes.get(row.athlete_id) ?? new Map<number, Row[]>();
    sessions.set(row.session_id, [...(sessions.get(row.session_id) ?? []), row]);
    athletes.set(row.athlete_id, sessions);
  }
  return [...athletes].map(([athlete_id, sessions]) => {
    const trials = [...sessions.values()];
    return {
      athlete_id,
      name: people.nameOf(athlete_id),
      dates: trials.map((trial) => trial[0].session_date),
      means: trials.map((trial) => mean(trial.map((row) => row.value))),
      repetitions: trials.map((trial) => trial.length),
    };
  });
}

function unknownQuantity(quantity: string): FaultError {
  const known = [...REPEATABLE_QUANTITIES];
  return new FaultError(fault('OPTION_UNREADABLE.repeatable_quantity', { quantity, known }, { quantity }));
}

function tooFew(athletes: number): FaultError {
  return new FaultError(fault('EXPORT_EMPTY.repeatability', { athletes }, { athletes }));
}
