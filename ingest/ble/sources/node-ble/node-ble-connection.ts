import type { Notice } from '../../../../shared/notice-shape.ts';
import { hostTime } from '../host-clock.ts';
import type { GattConnection, GattService } from '../gatt-radio.ts';
import { CALL_TIMEOUT_MS } from '../radio-times.ts';
import { within } from '../within.ts';
import type { BusSession, Characteristic, Device, Gatt } from './bus-session.ts';

/**
 * One connection by node-ble. Its objects are new for each connection, and all their listeners are taken off at its end:
 * a characteristic that is used again would give every value twice.
 */
export class NodeBleConnection implements GattConnection {
  services: GattService[] = [];
  mtu: number | null = null;
  rssi_dbm: number | null = null;
  private readonly device: Device;
  private readonly session: BusSession;
  private readonly lost: (reason: Notice) => void;
  private gatt: Gatt | null = null;
  private over = false;

  constructor(device: Device, session: BusSession, lost: (reason: Notice) => void) {
    this.device = device;
    this.session = session;
    this.lost = lost;
  }

  /** Takes over what the sensor offers, once it is known. */
  async use(gatt: Gatt, device_props: Record<string, unknown> | null): Promise<void> {
    this.gatt = gatt;
    if (typeof device_props?.RSSI === 'number') this.rssi_dbm = device_props.RSSI;
    for (const [uuid, service] of Object.entries(gatt._services)) {
      const characteristics = [];
      for (const [characteristic_uuid, characteristic] of Object.entries(service._characteristics)) {
        const props = await characteristic.helper.props();
        if (typeof props.MTU === 'number') this.mtu = props.MTU;
        characteristics.push({ uuid: characteristic_uuid, flags: (props.Flags as string[] | undefined) ?? [] });
      }
      this.services.push({ uuid, characteristics });
    }
  }

  async read(service_uuid: string, characteristic_uuid: string): Promise<Uint8Array> {
    return this.find(service_uuid, characteristic_uuid).readValue();
  }

  async write(
    service_uuid: string,
    characteristic_uuid: string,
    bytes: Uint8Array,
    with_response: boolean,
  ): Promise<void> {
    const characteristic = this.find(service_uuid, characteristic_uuid);
    if (with_response) await characteristic.writeValueWithResponse(Buffer.from(bytes));
    else await characteristic.writeValueWithoutResponse(Buffer.from(bytes));
  }

  async subscribe(
    service_uuid: string,
    characteristic_uuid: string,
    value: (bytes: Uint8Array, arrival_s: number) => void,
  ): Promise<void> {
    const characteristic = this.find(service_uuid, characteristic_uuid);
    const first = characteristic.listenerCount('valuechanged') === 0;
    characteristic.on('valuechanged', (bytes: Buffer) => {
      if (!this.over) value(bytes, hostTime());
    });
    if (first) await characteristic.startNotifications();
  }

  async unsubscribe(service_uuid: string, characteristic_uuid: string): Promise<void> {
    await this.find(service_uuid, characteristic_uuid).stopNotifications();
  }

  async disconnect(): Promise<void> {
    const was_over = this.over;
    this.over = true;
    if (was_over) return;
    await within(this.device.disconnect(), CALL_TIMEOUT_MS, 'disconnection').catch(() => {});
    this.release();
  }

  /** The link is gone. */
  lose(reason: Notice): void {
    if (this.over) return;
    this.over = true;
    this.release();
    this.lost(reason);
  }

  private release(): void {
    if (this.session.ended) return;
    for (const service of Object.values(this.gatt?._services ?? {})) {
      for (const characteristic of Object.values(service._characteristics)) {
        characteristic.removeAllListeners();
        characteristic.helper.removeListeners();
      }
    }
    this.device.removeAllListeners();
    this.device.helper.removeListeners();
  }

  private find(service_uuid: string, characteristic_uuid: string): Characteristic {
    const found = this.gatt?._services[service_uuid]?._characteristics[characteristic_uuid];
    if (found === undefined || this.over)
      throw new Error(`the link is gone, or has no characteristic ${characteristic_uuid}`);
    return found;
  }
}
