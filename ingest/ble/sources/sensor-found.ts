/** A sensor that can be heard. */
export interface SensorFound {
  /** Stays the same over connections; the address where the platform gives one. */
  sensor_id: string;
  name: string;
  rssi_dbm: number | null;
  service_uuids: string[];
}

/** State of the radio itself, in the words shown to the coach. */
export interface SourceState {
  ready: boolean;
  /** Plain words: what happened, and what to do. Empty when all is well. */
  problem: string;
}
