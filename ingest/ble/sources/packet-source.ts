/**
 * What every origin of live packets looks like: radio, replay of a captured log, browser. A new one is a new file that
 * implements `PacketSource`; nothing else changes.
 */
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';

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

export interface LinkHandlers {
  /** @param arrival_s host's monotonic clock, seconds, read as early as possible */
  packet(bytes: Uint8Array, arrival_s: number): void;
  /** Called once, when the link ends for any reason but `close`. */
  lost(reason: string): void;
}

/** What the standard services told when the link was made. */
export interface SensorInformation {
  battery_percent: number | null;
  device_information: Record<string, string>;
}

export interface SensorLink {
  information: SensorInformation;
  /** Asks for the battery level; null where the sensor has no battery service. */
  readBattery(): Promise<number | null>;
  /** Writes the description's stop and drops the link. Never throws. */
  close(): Promise<void>;
}

export interface PacketSource {
  /** Short name in URLs and logs. */
  readonly kind: string;
  state(): SourceState;
  /** Starts or goes on looking for sensors; `found` is called again when a signal strength changes. */
  startScan(found: (sensor: SensorFound) => void): Promise<void>;
  stopScan(): Promise<void>;
  /**
   * Makes the link, writes rate, range and start, and delivers packets until closed or lost.
   * @throws FaultError SENSOR_UNREACHABLE, SENSOR_NOT_AS_DESCRIBED, RADIO_UNAVAILABLE
   */
  open(
    sensor_id: string,
    description: StreamDescription,
    settings: StreamSettings,
    handlers: LinkHandlers,
  ): Promise<SensorLink>;
  /** Gives everything back. The source cannot be used afterwards. */
  close(): Promise<void>;
}
