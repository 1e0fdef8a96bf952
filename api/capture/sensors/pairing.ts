import { channelTargets, defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { RUNNING_SPEED_AND_CADENCE_UUID } from '../../../ingest/ble/packets/standard-services.ts';
import type { SensorFound } from '../../../ingest/ble/sources/packet-source.ts';
import { SILENT } from '../../../shared/notice.ts';
import type { FoundSensor, PairedSensor, SensorPlace, SensorPlaceChange } from '../../../shared/schemas/capture.ts';
import { getAthlete } from '../../store/athletes.ts';
import type { Store } from '../../store/store.ts';
import { readSensorPlaces, writeSensorPlaces } from './sensor-places.ts';
import type { StreamDescriptions } from './stream-descriptions.ts';

/** Which sensors there are: those heard just now, and those that have a place. */
export class Pairing {
  private readonly store: Store;
  private readonly descriptions: StreamDescriptions;
  private readonly heard = new Map<string, SensorFound>();

  constructor(store: Store, descriptions: StreamDescriptions) {
    this.store = store;
    this.descriptions = descriptions;
  }

  /** A sensor was heard in the search. */
  hear(sensor: SensorFound): void {
    this.heard.set(sensor.sensor_id, sensor);
  }

  found(): FoundSensor[] {
    const places = this.places();
    return [...this.heard.values()].map(({ sensor_id, name, rssi_dbm, service_uuids }) => ({
      sensor_id,
      name,
      rssi_dbm,
      description_id: this.descriptions.fitting(name, service_uuids)[0]?.id ?? null,
      fitting: this.descriptions.fitting(name, service_uuids).map((one) => one.id),
      tells_speed: service_uuids.includes(RUNNING_SPEED_AND_CADENCE_UUID),
      paired: sensor_id in places,
    }));
  }

  /** A new search begins: what is no longer there must not be offered. */
  forgetHeard(): void {
    this.heard.clear();
  }

  places(): Record<string, SensorPlace> {
    return readSensorPlaces(this.store);
  }

  /** The placed sensors while nothing is recorded. */
  idle(): PairedSensor[] {
    return Object.entries(this.places()).map(([sensor_id, place]) => ({
      ...place,
      ...NOTHING_YET,
      sensor_id,
      athlete_name: this.athleteName(place.athlete_id),
    }));
  }

  /**
   * Places a sensor, or changes its place; what is not given stays, or is the description's default.
   * @throws FaultError STREAM_DESCRIPTION_INVALID, STREAM_SETTINGS_INVALID, ATHLETE_NOT_FOUND
   */
  place(sensor_id: string, change: SensorPlaceChange): SensorPlace {
    const places = this.places();
    const heard = this.heard.get(sensor_id);
    const before = places[sensor_id];
    const name = change.name ?? before?.name ?? heard?.name ?? sensor_id;
    const matched = () => this.descriptions.fitting(name, heard?.service_uuids ?? [])[0]?.id ?? '';
    const description_id = change.description_id ?? before?.description_id ?? matched();
    const description = this.descriptions.get(description_id);
    if (change.athlete_id) getAthlete(this.store, change.athlete_id);
    const same_kind = before?.description_id === description_id;
    const place: SensorPlace = {
      ...(before ?? { side: 'unknown', mounting: 'foot', athlete_id: null }),
      ...change,
      name,
      description_id,
      settings: { ...(same_kind ? before.settings : defaultSettings(description)), ...change.settings },
    };
    channelTargets(description, place.settings);
    writeSensorPlaces(this.store, { ...places, [sensor_id]: place });
    return place;
  }

  forget(sensor_id: string): void {
    const { [sensor_id]: _gone, ...rest } = this.places();
    writeSensorPlaces(this.store, rest);
  }

  /** Null for nobody, and for somebody who was erased meanwhile. */
  athleteName(athlete_id: number | null): string | null {
    if (athlete_id === null) return null;
    try {
      return getAthlete(this.store, athlete_id, true).name;
    } catch {
      return null;
    }
  }
}

const NOTHING_YET = {
  state: 'off' as const,
  words: SILENT,
  battery_percent: null,
  firmware: null,
  rssi_dbm: null,
  measured_rate_hz: null,
  rate_off: false,
  samples: 0,
  lost_samples: 0,
  duplicate_packets: 0,
  unreadable_packets: 0,
  reconnects: 0,
  silent_s: null,
  drift_ppm: null,
  clock_u_ms: null,
  tap_s: null,
};
