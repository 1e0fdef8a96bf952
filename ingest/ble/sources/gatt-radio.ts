/**
 * What a radio library must be able to do, and no more: hear sensors, connect, read, write, be notified. `GattPacketSource`
 * makes a packet source of it, so that the library can be changed without anything else moving.
 */
import type { Notice } from '../../../shared/notice-shape.ts';
import type { SensorFound, SourceState } from './sensor-found.ts';

export interface GattCharacteristic {
  uuid: string;
  /** Words of the Bluetooth standard: read, write, write-without-response, notify, indicate. */
  flags: string[];
}

export interface GattService {
  uuid: string;
  characteristics: GattCharacteristic[];
}

/** One connection. Its calls reject when the link is gone. */
export interface GattConnection {
  readonly services: GattService[];
  /** Bytes that fit into one exchange; null where the library does not tell. */
  readonly mtu: number | null;
  readonly rssi_dbm: number | null;
  read(service_uuid: string, characteristic_uuid: string): Promise<Uint8Array>;
  write(service_uuid: string, characteristic_uuid: string, bytes: Uint8Array, with_response: boolean): Promise<void>;
  /** @param value called with the host's monotonic time of arrival, read as early as possible */
  subscribe(
    service_uuid: string,
    characteristic_uuid: string,
    value: (bytes: Uint8Array, arrival_s: number) => void,
  ): Promise<void>;
  unsubscribe(service_uuid: string, characteristic_uuid: string): Promise<void>;
  /** Drops the link and gives back what belongs to it. Never throws. */
  disconnect(): Promise<void>;
}

export interface ConnectOptions {
  bonding: 'none' | 'without_code' | 'with_code';
  /** Six digits. */
  code: string | null;
  /** Called once, when the link ends for any reason but `disconnect`. */
  lost(reason: Notice): void;
}

export interface GattRadio {
  state(): SourceState;
  startScan(found: (sensor: SensorFound) => void): Promise<void>;
  stopScan(): Promise<void>;
  /** Connects and lists the services. @throws FaultError SENSOR_UNREACHABLE, SENSOR_BOND_REFUSED, RADIO_UNAVAILABLE */
  connect(sensor_id: string, options: ConnectOptions): Promise<GattConnection>;
  close(): Promise<void>;
}
