import type { SensorPlace } from '../../../shared/schemas/capture.ts';
import type { Store } from '../../store/store.ts';

const SETTING = 'sensor_places';

/** Paired sensors by identifier: remembered in the store. */
export function readSensorPlaces(store: Store): Record<string, SensorPlace> {
  const row = store.first(store.query.selectFrom('settings').select('value').where('name', '=', SETTING));
  return row === undefined ? {} : (JSON.parse(row.value) as Record<string, SensorPlace>);
}

/** Takes an erased person off every sensor. */
export function forgetWearer(store: Store, athlete_id: number): void {
  const places = Object.entries(readSensorPlaces(store)).map(([sensor_id, place]) => [
    sensor_id,
    place.athlete_id === athlete_id ? { ...place, athlete_id: null } : place,
  ]);
  writeSensorPlaces(store, Object.fromEntries(places));
}

export function writeSensorPlaces(store: Store, places: Record<string, SensorPlace>): void {
  const value = JSON.stringify(places);
  store.run(
    store.query
      .insertInto('settings')
      .values({ name: SETTING, value })
      .onConflict((conflict) => conflict.column('name').doUpdateSet({ value })),
  );
}
