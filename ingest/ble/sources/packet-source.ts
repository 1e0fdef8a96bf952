/**
 * What every origin of live packets looks like: radio, replay of a captured log, browser. A new one is a new file that
 * implements `PacketSource`; nothing else changes.
 */
import type { Notice } from '../../../shared/notice-shape.ts';
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import type { StreamWrite } from '../../../shared/stream-writes.ts';
import type { GattService } from './gatt-radio.ts';
import type { RecordingStore } from './recording-store.ts';
import type { SensorFound, SourceState } from './sensor-found.ts';

export type { RadioProblem, SensorFound, SourceState } from './sensor-found.ts';

export interface LinkHandlers {
  /**
   * @param arrival_s host's monotonic clock, seconds, read as early as possible
   * @param source which of the description's data characteristics it came from; the first when absent
   */
  packet(bytes: Uint8Array, arrival_s: number, source?: number): void;
  /** Called once, when the link ends for any reason but `close`. */
  lost(reason: Notice): void;
  /** Nothing more will come, and nothing is wrong: what was played has come to its end. */
  ended?(): void;
  /** Start is about to be written; and: it has been. Only of sources that write it (`tells_start`). */
  startWritten?(at_s?: number): void;
  started?(at_s?: number): void;
  /** The sensor tells its charge by itself. */
  battery?(percent: number): void;
}

/** What the standard services told when the link was made. */
export interface SensorInformation {
  battery_percent: number | null;
  device_information: Record<string, string>;
  rssi_dbm: number | null;
  /** Bytes that fit into one exchange; null where it is not known. */
  mtu: number | null;
}

export const NO_INFORMATION: SensorInformation = {
  battery_percent: null,
  device_information: {},
  rssi_dbm: null,
  mtu: null,
};

export interface SensorLink {
  information: SensorInformation;
  /** Asks for the battery level; null where the sensor has no battery service. */
  readBattery(): Promise<number | null>;
  /** Writes the description's stop and drops the link; packets go on coming until it is dropped. Never throws. */
  close(): Promise<void>;
}

/** What is chosen for one sensor beside rate and ranges. */
export interface LinkOptions {
  /** Code that the sensor asks for when it is bonded; the description's where null. */
  code?: string | null;
  /** True: the sensor also records into its own memory while it streams. */
  record_on_sensor?: boolean;
}

export interface PacketSource {
  /** Short name in URLs and logs. */
  readonly kind: string;
  /** True where `open` tells when start is written: packets before are of the time before. */
  readonly tells_start?: boolean;
  state(): SourceState;
  /** Starts or goes on looking for sensors; `found` is called again when a signal strength changes. */
  startScan(found: (sensor: SensorFound) => void): Promise<void>;
  stopScan(): Promise<void>;
  /**
   * Makes the link, writes rate, range and start, and delivers packets until closed or lost.
   * @throws FaultError SENSOR_UNREACHABLE, SENSOR_NOT_AS_DESCRIBED, SENSOR_BOND_REFUSED, RADIO_UNAVAILABLE
   */
  open(
    sensor_id: string,
    description: StreamDescription,
    settings: StreamSettings,
    handlers: LinkHandlers,
    options?: LinkOptions,
  ): Promise<SensorLink>;
  /** Connects without writing anything, and lists what the sensor offers. */
  explore?(sensor_id: string, lost: (reason: Notice) => void): Promise<ExploredSensor>;
  /** The recordings in the sensor's own memory. */
  recordings?(sensor_id: string, description: StreamDescription, options?: LinkOptions): Promise<RecordingStore>;
  /** Gives everything back. The source cannot be used afterwards. */
  close(): Promise<void>;
}

/** A sensor connected only to see how it speaks. */
export interface ExploredSensor {
  services: GattService[];
  information: SensorInformation;
  subscribe(
    service_uuid: string,
    characteristic_uuid: string,
    value: (bytes: Uint8Array, arrival_s: number) => void,
  ): Promise<void>;
  /** Runs a row of writes as a stream description has them. */
  write(writes: StreamWrite[]): Promise<void>;
  close(): Promise<void>;
}
