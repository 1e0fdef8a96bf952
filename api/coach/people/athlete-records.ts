import type {
  AthleteMeasure,
  AthletePoint,
  AthletePointChange,
  AthleteSensor,
  NewAthleteMeasure,
  NewAthletePoint,
} from '../../../shared/schemas/coach/athlete-record.ts';
import { FaultError } from '../../../shared/fault.ts';
import { getAthlete } from '../../store/athletes.ts';
import { nowUtc, type Store } from '../../store/store.ts';
import { coachQuery } from '../coach-tables.ts';
import { daysBetween } from '../dates.ts';
import { markDeleted, recordNotFound } from '../soft-deletion.ts';
import { TECHNIQUE_POINTS, techniquePoint } from '../judgement/technique-points.ts';

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

/** An athlete's technique points, current ones first, then newest first. */
export function listPoints(store: Store, athlete_id: number, today: string): AthletePoint[] {
  const rows = store.all(
    coachQuery(store)
      .selectFrom('athlete_points')
      .select(['athlete_point_id', 'athlete_id', 'point', 'from_date', 'to_date', 'note'])
      .where('athlete_id', '=', athlete_id)
      .where('deleted_utc', 'is', null)
      .orderBy('from_date', 'desc')
      .orderBy('athlete_point_id', 'desc'),
  );
  const points = rows.map((row) => ({
    ...row,
    name: techniquePoint(row.point)?.name ?? row.point,
    weeks: Math.max(0, daysBetween(row.from_date, row.to_date ?? today) / 7),
  }));
  const isCurrent = (point: AthletePoint) => point.to_date === null || point.to_date >= today;
  return [...points.filter(isCurrent), ...points.filter((point) => !isCurrent(point))];
}

/** Points being worked on on that day. */
export function currentPoints(store: Store, athlete_id: number, date: string): AthletePoint[] {
  return listPoints(store, athlete_id, date).filter(
    (point) => point.from_date <= date && (point.to_date === null || point.to_date >= date),
  );
}

export function addPoint(store: Store, athlete_id: number, body: NewAthletePoint): AthletePoint {
  checkPoint(body.point);
  getAthlete(store, athlete_id);
  const { id } = store.run(
    coachQuery(store)
      .insertInto('athlete_points')
      .values({ athlete_id, ...body }),
  );
  return getPoint(store, id);
}

/** @throws FaultError COACH_RECORD_NOT_FOUND */
export function changePoint(store: Store, athlete_point_id: number, change: AthletePointChange): AthletePoint {
  if (change.point !== undefined) checkPoint(change.point);
  getPoint(store, athlete_point_id);
  if (Object.keys(change).length > 0) {
    store.run(
      coachQuery(store).updateTable('athlete_points').set(change).where('athlete_point_id', '=', athlete_point_id),
    );
  }
  return getPoint(store, athlete_point_id);
}

function getPoint(store: Store, athlete_point_id: number): AthletePoint {
  const row = store.first(
    coachQuery(store)
      .selectFrom('athlete_points')
      .select(['athlete_point_id', 'athlete_id', 'point', 'from_date', 'to_date', 'note'])
      .where('athlete_point_id', '=', athlete_point_id),
  );
  if (!row) throw recordNotFound('athlete_points', athlete_point_id);
  const until = row.to_date ?? nowUtc().slice(0, 10);
  return {
    ...row,
    name: techniquePoint(row.point)?.name ?? row.point,
    weeks: Math.max(0, daysBetween(row.from_date, until) / 7),
  };
}

/** @throws FaultError TECHNIQUE_POINT_UNKNOWN */
export function checkPoint(point: string): void {
  if (techniquePoint(point)) return;
  throw new FaultError({
    code: 'TECHNIQUE_POINT_UNKNOWN',
    message: `point is "${point}"; it must be one of ${TECHNIQUE_POINTS.map((known) => known.key).join(', ')}. Nothing was stored.`,
    where: { field: 'point', value: point },
    hint: 'The technique points are listed at /api/coach/technique-points.',
  });
}
