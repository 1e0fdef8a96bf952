import { hostTime } from '../../ingest/ble/sources/host-clock.ts';
import type {
  LinkHandlers,
  PacketSource,
  SensorFound,
  SensorLink,
  SourceState,
} from '../../ingest/ble/sources/packet-source.ts';
import { FaultError } from '../../shared/fault.ts';

/** A radio whose sensors do what the test says, without any time passing. */
export class ScriptedSource implements PacketSource {
  readonly kind = 'scripted';
  radio: SourceState = { ready: true, problem: null };
  battery_percent: number | null = 80;
  readonly absent = new Set<string>();
  private readonly links = new Map<string, LinkHandlers>();
  private readonly sensors: SensorFound[];

  constructor(sensors: Pick<SensorFound, 'sensor_id' | 'name'>[]) {
    this.sensors = sensors.map((sensor) => ({ ...sensor, rssi_dbm: -50, service_uuids: [] }));
  }

  state(): SourceState {
    return this.radio;
  }

  async startScan(found: (sensor: SensorFound) => void): Promise<void> {
    this.sensors.forEach(found);
  }

  async stopScan(): Promise<void> {}

  async open(
    sensor_id: string,
    _description: unknown,
    _settings: unknown,
    handlers: LinkHandlers,
  ): Promise<SensorLink> {
    if (this.absent.has(sensor_id)) {
      throw new FaultError({
        code: 'SENSOR_UNREACHABLE',
        message: 'it was not heard.',
        where: { sensor_id },
        hint: '',
      });
    }
    this.links.set(sensor_id, handlers);
    return {
      information: {
        battery_percent: this.battery_percent,
        device_information: { firmware_revision: '1.0' },
        rssi_dbm: -50,
        mtu: 247,
      },
      readBattery: async () => this.battery_percent,
      close: async () => void this.links.delete(sensor_id),
    };
  }

  async close(): Promise<void> {
    this.links.clear();
  }

  send(sensor_id: string, bytes: Uint8Array, arrival_s = hostTime()): void {
    this.links.get(sensor_id)?.packet(bytes, arrival_s);
  }

  breakLink(sensor_id: string, reason: string): void {
    const handlers = this.links.get(sensor_id);
    this.links.delete(sensor_id);
    handlers?.lost(reason);
  }

  linked(sensor_id: string): boolean {
    return this.links.has(sensor_id);
  }
}
