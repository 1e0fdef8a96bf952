/** A sensor that can be heard. */
export interface SensorFound {
  /** Stays the same over connections; the address where the platform gives one. */
  sensor_id: string;
  name: string;
  rssi_dbm: number | null;
  service_uuids: string[];
}

/** What can be wrong with the radio of the machine; its words are those of the fault RADIO_UNAVAILABLE. */
export type RadioProblem = 'bus' | 'denied' | 'service' | 'adapter' | 'platform' | 'off';

/** State of the radio itself. */
export interface SourceState {
  ready: boolean;
  /** Null when all is well. */
  problem: RadioProblem | null;
}
