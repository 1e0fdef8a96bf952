import type { Notice } from '../../../shared/notice-shape.ts';
import { dataCharacteristics } from '../../../shared/packet-streams.ts';
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { streamWrites, toWrite } from '../../../shared/stream-writes.ts';
import { BATTERY_LEVEL_UUID, BATTERY_SERVICE_UUID, decodeBatteryLevel } from '../packets/standard-services.ts';
import type { GattConnection, GattRadio } from './gatt-radio.ts';
import type {
  ExploredSensor,
  LinkHandlers,
  LinkOptions,
  PacketSource,
  SensorFound,
  SensorInformation,
  SensorLink,
  SourceState,
} from './packet-source.ts';
import { notAsDescribed, linkFailed } from './radio-faults.ts';
import { type ReadCharacteristic, readBattery, readInformation } from './read-information.ts';
import { openRecordingStore, type RecordingStore } from './recording-store.ts';
import { runWrites } from './run-writes.ts';
import { CALL_TIMEOUT_MS } from './radio-times.ts';
import { within } from './within.ts';
import { FaultError } from '../../../shared/fault.ts';

/** What a sensor still had when it was stopped is on its way for so long. */
const LAST_PACKETS_MS = 150;

/** Packets by any radio library: what a stream description asks for, done on a bare connection. */
export class GattPacketSource implements PacketSource {
  readonly kind = 'radio';
  readonly tells_start = true;
  protected readonly radio: GattRadio;

  constructor(radio: GattRadio) {
    this.radio = radio;
  }

  state(): SourceState {
    return this.radio.state();
  }

  startScan(found: (sensor: SensorFound) => void): Promise<void> {
    return this.radio.startScan(found);
  }

  stopScan(): Promise<void> {
    return this.radio.stopScan();
  }

  async open(
    sensor_id: string,
    description: StreamDescription,
    settings: StreamSettings,
    handlers: LinkHandlers,
    options: LinkOptions = {},
  ): Promise<SensorLink> {
    const link = { closing: false, over: false };
    const connection = await this.connect(sensor_id, description, options, (reason) => {
      if (link.over) return;
      link.over = true;
      if (!link.closing) handlers.lost(reason);
    });
    const data = dataCharacteristics(description);
    const close = async (writes: ReturnType<typeof streamWrites>['stop']) => {
      link.closing = true;
      // Packets go on coming until the sensor has stopped: what it sends meanwhile is recorded as well.
      if (!link.over && writes.length > 0) {
        await runWrites(connection, sensor_id, writes).catch(() => {});
        await new Promise((resolve) => setTimeout(resolve, LAST_PACKETS_MS));
      }
      for (const { service_uuid, characteristic_uuid } of link.over ? [] : data) {
        await within(connection.unsubscribe(service_uuid, characteristic_uuid), CALL_TIMEOUT_MS, 'stop').catch(
          () => {},
        );
      }
      link.over = true;
      await connection.disconnect();
    };
    try {
      for (const { service_uuid, characteristic_uuid } of data) {
        mustOffer(connection, sensor_id, service_uuid, characteristic_uuid);
      }
      const writes = streamWrites(description, settings);
      const recording = options.record_on_sensor ? description.recordings : undefined;
      const start = [...writes.start, ...(recording?.start ?? []).map((w) => toWrite(w, description.service_uuid))];
      const stop = [...(recording?.stop ?? []).map((w) => toWrite(w, description.service_uuid)), ...writes.stop];
      for (const write of [...writes.set_up, ...start]) {
        mustOffer(connection, sensor_id, write.service_uuid, write.characteristic_uuid);
      }
      const read = reader(connection);
      const information = await informationOf(connection, read);
      await this.followBattery(connection, handlers);
      for (const [source, { service_uuid, characteristic_uuid }] of data.entries()) {
        const take = (bytes: Uint8Array, arrival_s: number) => {
          if (!link.over) handlers.packet(bytes, arrival_s, source);
        };
        const subscribed = connection.subscribe(service_uuid, characteristic_uuid, take);
        await within(subscribed, CALL_TIMEOUT_MS, 'start of notifications');
      }
      await runWrites(connection, sensor_id, writes.set_up);
      handlers.startWritten?.();
      await runWrites(connection, sensor_id, start);
      handlers.started?.();
      return { information, readBattery: () => readBattery(read), close: () => close(stop) };
    } catch (error) {
      link.closing = true;
      await close([]);
      throw error instanceof FaultError ? error : linkFailed(sensor_id, 'failed', (error as Error).message);
    }
  }

  async explore(sensor_id: string, lost: (reason: Notice) => void): Promise<ExploredSensor> {
    const connection = await this.radio.connect(sensor_id, { bonding: 'none', code: null, lost });
    return {
      services: connection.services,
      information: await informationOf(connection, reader(connection)),
      subscribe: (service_uuid, characteristic_uuid, value) =>
        within(
          connection.subscribe(service_uuid, characteristic_uuid, value),
          CALL_TIMEOUT_MS,
          'start of notifications',
        ),
      write: (writes) => runWrites(connection, sensor_id, writes),
      close: () => connection.disconnect(),
    };
  }

  async recordings(
    sensor_id: string,
    description: StreamDescription,
    options: LinkOptions = {},
  ): Promise<RecordingStore> {
    const connection = await this.connect(sensor_id, description, options, () => {});
    try {
      return await openRecordingStore(connection, sensor_id, description);
    } catch (error) {
      await connection.disconnect();
      throw error;
    }
  }

  close(): Promise<void> {
    return this.radio.close();
  }

  private connect(
    sensor_id: string,
    description: StreamDescription,
    options: LinkOptions,
    lost: (reason: Notice) => void,
  ): Promise<GattConnection> {
    const { bonding = 'none', code = null } = description.connection ?? {};
    return this.radio.connect(sensor_id, { bonding, code: options.code ?? code, lost });
  }

  /** A sensor that tells its charge by itself need not be asked. */
  private async followBattery(connection: GattConnection, { battery }: LinkHandlers): Promise<void> {
    const level = connection.services
      .find((service) => service.uuid === BATTERY_SERVICE_UUID)
      ?.characteristics.find((one) => one.uuid === BATTERY_LEVEL_UUID);
    if (battery === undefined || !level?.flags.includes('notify')) return;
    const told = (bytes: Uint8Array) => {
      const percent = bytes.length === 0 ? null : decodeBatteryLevel(bytes);
      if (percent !== null) battery(percent);
    };
    await within(
      connection.subscribe(BATTERY_SERVICE_UUID, BATTERY_LEVEL_UUID, told),
      CALL_TIMEOUT_MS,
      'battery',
    ).catch(() => {});
  }
}

function reader(connection: GattConnection): ReadCharacteristic {
  return async (service_uuid, characteristic_uuid) => {
    const service = connection.services.find((one) => one.uuid === service_uuid);
    if (!service?.characteristics.some((one) => one.uuid === characteristic_uuid)) return undefined;
    return within(connection.read(service_uuid, characteristic_uuid), CALL_TIMEOUT_MS, 'reading').catch(
      () => undefined,
    );
  };
}

async function informationOf(connection: GattConnection, read: ReadCharacteristic): Promise<SensorInformation> {
  return { ...(await readInformation(read)), rssi_dbm: connection.rssi_dbm, mtu: connection.mtu };
}

/** @throws FaultError SENSOR_NOT_AS_DESCRIBED naming what is missing and what there is */
export function mustOffer(
  { services }: GattConnection,
  sensor_id: string,
  service_uuid: string,
  characteristic_uuid: string,
): void {
  const service = services.find((one) => one.uuid === service_uuid);
  if (service?.characteristics.some((one) => one.uuid === characteristic_uuid)) return;
  throw notAsDescribed(sensor_id, service_uuid, characteristic_uuid, services);
}
