import type { Notice } from '../../../../shared/notice-shape.ts';
import type { GattConnection, GattService } from '../gatt-radio.ts';
import { hostTime } from '../host-clock.ts';
import type { BluezBus } from './bluez-bus.ts';
import { type BluezObjects, CHARACTERISTIC, DEVICE, SERVICE } from './bluez-objects.ts';

type Take = (bytes: Uint8Array, arrival_s: number) => void;

/** One connection to one sensor: its characteristics by UUID, and who listens to each. */
export class BluezConnection implements GattConnection {
  readonly path: string;
  services: GattService[] = [];
  mtu: number | null = null;
  rssi_dbm: number | null = null;
  private readonly bus: BluezBus;
  private readonly lost: (reason: Notice) => void;
  private readonly paths = new Map<string, string>();
  private readonly takers = new Map<string, Take[]>();
  private over = false;

  constructor(path: string, bus: BluezBus, lost: (reason: Notice) => void) {
    this.path = path;
    this.bus = bus;
    this.lost = lost;
  }

  /** Takes over what the sensor offers, once it is known. */
  use(objects: BluezObjects): void {
    const rssi = objects.of(this.path, DEVICE)?.RSSI;
    if (typeof rssi === 'number') this.rssi_dbm = rssi;
    for (const [service_path, service] of objects.all(SERVICE)) {
      if (service.Device !== this.path) continue;
      const service_uuid = String(service.UUID);
      const characteristics = objects
        .all(CHARACTERISTIC)
        .filter(([, { Service }]) => Service === service_path)
        .map(([path, { UUID, Flags, MTU }]) => {
          if (typeof MTU === 'number') this.mtu = MTU;
          this.paths.set(`${service_uuid}/${UUID}`, path);
          return { uuid: String(UUID), flags: (Flags as string[] | undefined) ?? [] };
        });
      this.services.push({ uuid: service_uuid, characteristics });
    }
  }

  /** A characteristic sent a value. */
  value(path: string, bytes: Uint8Array): void {
    const arrival_s = hostTime();
    for (const take of this.takers.get(path) ?? []) take(bytes, arrival_s);
  }

  async read(service_uuid: string, characteristic_uuid: string): Promise<Uint8Array> {
    const path = this.find(service_uuid, characteristic_uuid);
    const value = await this.bus.call(path, CHARACTERISTIC, 'ReadValue', { signature: 'a{sv}', body: [[]] });
    return Uint8Array.from(value as Uint8Array);
  }

  async write(
    service_uuid: string,
    characteristic_uuid: string,
    bytes: Uint8Array,
    with_response: boolean,
  ): Promise<void> {
    const path = this.find(service_uuid, characteristic_uuid);
    const options = [['type', ['s', with_response ? 'request' : 'command']]];
    const body = [Buffer.from(bytes), options];
    await this.bus.call(path, CHARACTERISTIC, 'WriteValue', { signature: 'aya{sv}', body });
  }

  async subscribe(service_uuid: string, characteristic_uuid: string, value: Take): Promise<void> {
    const path = this.find(service_uuid, characteristic_uuid);
    const takers = this.takers.get(path) ?? [];
    this.takers.set(path, [...takers, value]);
    if (takers.length === 0) await this.bus.call(path, CHARACTERISTIC, 'StartNotify');
  }

  async unsubscribe(service_uuid: string, characteristic_uuid: string): Promise<void> {
    const path = this.find(service_uuid, characteristic_uuid);
    this.takers.delete(path);
    await this.bus.call(path, CHARACTERISTIC, 'StopNotify');
  }

  async disconnect(): Promise<void> {
    if (this.over) return;
    this.end();
    await this.bus.call(this.path, DEVICE, 'Disconnect').catch(() => {});
  }

  /** The link is gone. */
  lose(reason: Notice): void {
    if (this.over) return;
    this.end();
    this.lost(reason);
  }

  private end(): void {
    this.over = true;
    this.takers.clear();
  }

  private find(service_uuid: string, characteristic_uuid: string): string {
    const path = this.paths.get(`${service_uuid}/${characteristic_uuid}`);
    if (path === undefined || this.over)
      throw new Error(`the link is gone, or has no characteristic ${characteristic_uuid}`);
    return path;
  }
}
