import type { JudgementWords } from '../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../shared/messages/en/judgement.ts';
import { FaultError, fault } from '../../shared/fault.ts';
import type {
  AthleteFocus,
  AthleteFocusChange,
  AthleteMeasure,
  AthleteSensor,
  NewAthleteFocus,
  NewAthleteMeasure,
} from '../../shared/schemas/coach/athlete-record.ts';
import { getAthlete } from '../store/athletes.ts';
import { nowUtc, type Store } from '../store/store.ts';
import { coachQuery } from '../store/coach-tables.ts';
import { daysBetween } from '../../shared/dates.ts';
import { focusName } from './focuses.ts';
import { findFocus, listAllFocuses } from './own-focuses.ts';
import { markDeleted, recordNotFound } from './soft-deletion.ts';

/** Measures by date, oldest first. */
export function listMeasures(store: Store, athlete_id: number): AthleteMeasure[] {
  return store.all(
    coachQuery(store)
      .selectFrom('athlete_measures')
      .select(['athlete_measure_id', 'athlete_id', 'date', 'body_mass_kg', 'stature_m', 'leg_length_m'])
      .where('athlete_id', '=', athlete_id)
      .where('deleted_utc', 'is', null)
      .orderBy('date')
      .orderBy('athlete_measure_id'),
  );
}

/** Keeps a measure and carries the newest of each kind to the athlete, where analysis reads it. */
export function addMeasure(store: Store, athlete_id: number, body: NewAthleteMeasure): AthleteMeasure {
  return store.transaction(() => {
    getAthlete(store, athlete_id);
    const { id } = store.run(
      coachQuery(store)
        .insertInto('athlete_measures')
        .values({ athlete_id, ...body }),
    );
    carryNewestMeasures(store, athlete_id);
    return { athlete_measure_id: id, athlete_id, ...body };
  });
}

/** Deletes a measure or takes the deletion back. */
export function markMeasureDeleted(store: Store, athlete_measure_id: number, deleted: boolean): void {
  store.transaction(() => {
    markDeleted(store, 'athlete_measures', athlete_measure_id, deleted);
    const row = store.first(
      coachQuery(store)
        .selectFrom('athlete_measures')
        .select('athlete_id')
        .where('athlete_measure_id', '=', athlete_measure_id),
    );
    if (row) carryNewestMeasures(store, row.athlete_id);
  });
}

function carryNewestMeasures(store: Store, athlete_id: number): void {
  const newest: Partial<Record<'body_mass_kg' | 'stature_m' | 'leg_length_m', number>> = {};
  for (const measure of listMeasures(store, athlete_id)) {
    for (const field of ['body_mass_kg', 'stature_m', 'leg_length_m'] as const) {
      const value = measure[field];
      if (value !== null) newest[field] = value;
    }
  }
  if (Object.keys(newest).length === 0) return;
  store.run(
    store.query
      .updateTable('athletes')
      .set({ ...newest, updated_utc: nowUtc() })
      .where('athlete_id', '=', athlete_id),
  );
}

/** Which sensor sits where on this athlete. */
export function listSensors(store: Store, athlete_id: number): AthleteSensor[] {
  return store.all(
    coachQuery(store)
      .selectFrom('athlete_sensors')
      .select(['side', 'sensor_name', 'mounting'])
      .where('athlete_id', '=', athlete_id)
      .orderBy('side'),
  ) as AthleteSensor[];
}

export function setSensors(store: Store, athlete_id: number, sensors: readonly AthleteSensor[]): AthleteSensor[] {
  return store.transaction(() => {
    getAthlete(store, athlete_id);
    const query = coachQuery(store);
    store.run(query.deleteFrom('athlete_sensors').where('athlete_id', '=', athlete_id));
    for (const sensor of new Map(sensors.map((entry) => [entry.side, entry])).values()) {
      store.run(query.insertInto('athlete_sensors').values({ athlete_id, ...sensor }));
    }
    return listSensors(store, athlete_id);
  });
}

/** An athlete's focuses, current ones first, then newest first. */
export function listFocuses(
  store: Store,
  athlete_id: number,
  today: string,
  words: JudgementWords = JUDGEMENT_EN,
): AthleteFocus[] {
  const rows = store.all(
    coachQuery(store)
      .selectFrom('athlete_focuses')
      .select(['athlete_focus_id', 'athlete_id', 'focus', 'from_date', 'to_date', 'note', 'cue'])
      .where('athlete_id', '=', athlete_id)
      .where('deleted_utc', 'is', null)
      .orderBy('from_date', 'desc')
      .orderBy('athlete_focus_id', 'desc'),
  );
  const focuses = rows.map((row) => ({
    ...row,
    name: focusName(row.focus, findFocus(store, row.focus)?.name ?? row.focus, words),
    weeks: Math.max(0, daysBetween(row.from_date, row.to_date ?? today) / 7),
  }));
  const isCurrent = (focus: AthleteFocus) => focus.to_date === null || focus.to_date >= today;
  return [...focuses.filter(isCurrent), ...focuses.filter((focus) => !isCurrent(focus))];
}

/** Focuses being worked on on that day. */
export function currentFocuses(store: Store, athlete_id: number, date: string): AthleteFocus[] {
  return listFocuses(store, athlete_id, date).filter(
    (focus) => focus.from_date <= date && (focus.to_date === null || focus.to_date >= date),
  );
}

export function addFocus(store: Store, athlete_id: number, body: NewAthleteFocus): AthleteFocus {
  checkFocus(store, body.focus);
  getAthlete(store, athlete_id);
  const { id } = store.run(
    coachQuery(store)
      .insertInto('athlete_focuses')
      .values({ athlete_id, ...body }),
  );
  return getFocus(store, id);
}

/** @throws FaultError COACH_RECORD_NOT_FOUND */
export function changeFocus(store: Store, athlete_focus_id: number, change: AthleteFocusChange): AthleteFocus {
  if (change.focus !== undefined) checkFocus(store, change.focus);
  getFocus(store, athlete_focus_id);
  if (Object.keys(change).length > 0) {
    store.run(
      coachQuery(store).updateTable('athlete_focuses').set(change).where('athlete_focus_id', '=', athlete_focus_id),
    );
  }
  return getFocus(store, athlete_focus_id);
}

function getFocus(store: Store, athlete_focus_id: number): AthleteFocus {
  const row = store.first(
    coachQuery(store)
      .selectFrom('athlete_focuses')
      .select(['athlete_focus_id', 'athlete_id', 'focus', 'from_date', 'to_date', 'note', 'cue'])
      .where('athlete_focus_id', '=', athlete_focus_id),
  );
  if (!row) throw recordNotFound('athlete_focuses', athlete_focus_id);
  const until = row.to_date ?? nowUtc().slice(0, 10);
  return {
    ...row,
    name: findFocus(store, row.focus)?.name ?? row.focus,
    weeks: Math.max(0, daysBetween(row.from_date, until) / 7),
  };
}

/** @throws FaultError FOCUS_UNKNOWN */
export function checkFocus(store: Store, focus: string): void {
  if (findFocus(store, focus)) return;
  throw new FaultError(
    fault(
      'FOCUS_UNKNOWN',
      { focus, known: listAllFocuses(store).map(({ key }) => key) },
      { field: 'focus', value: focus },
    ),
  );
}
