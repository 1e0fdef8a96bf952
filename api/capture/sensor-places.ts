import type { SensorPlace } from '../../shared/schemas/capture.ts';
import type { Store } from '../store/store.ts';

const SETTING = 'sensor_places';

/** Paired sensors by identifier: remembered in the store. */
export function readSensorPlaces(store: Store): Record<string, SensorPlace> {
  const row = store.first(store.query.selectFrom('settings').select('value').where('name', '=', SETTING));
  return row === undefined ? {} : (JSON.parse(row.value) as Record<string, SensorPlace>);
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
