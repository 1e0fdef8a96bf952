import type { Message } from '@homebridge/dbus-native';
import { type BluezBus, plainProperties } from './bluez-bus.ts';

export type Properties = Record<string, unknown>;

export const ADAPTER = 'org.bluez.Adapter1';
export const DEVICE = 'org.bluez.Device1';
export const SERVICE = 'org.bluez.GattService1';
export const CHARACTERISTIC = 'org.bluez.GattCharacteristic1';
const MANAGER = 'org.freedesktop.DBus.ObjectManager';

export interface ObjectEvents {
  /** A characteristic sent a value. */
  value(path: string, bytes: Uint8Array): void;
  /** Something about a device is new. */
  device(path: string, properties: Properties): void;
  /** A device is no longer known. */
  gone(path: string): void;
  /** The Bluetooth service stopped; whether it comes back shows the next question. */
  serviceGone(): void;
}

/** What BlueZ says there is, kept as it tells of changes: one question at the start instead of one each time. */
export class BluezObjects {
  private readonly faces = new Map<string, Map<string, Properties>>();
  private readonly events: ObjectEvents;
  private loaded = false;

  constructor(events: ObjectEvents) {
    this.events = events;
  }

  /** Asks for everything there is, where that is not known. @throws BusError when there is no Bluetooth service */
  async load(bus: BluezBus): Promise<void> {
    if (this.loaded) return;
    const all = (await bus.call('/', MANAGER, 'GetManagedObjects')) as [string, [string, unknown][]][];
    this.faces.clear();
    for (const [path, faces] of all) this.put(path, faces);
    this.loaded = true;
  }

  of(path: string, face: string): Properties | null {
    return this.faces.get(path)?.get(face) ?? null;
  }

  /** Objects with an interface, by path. */
  all(face: string): [path: string, properties: Properties][] {
    return [...this.faces].flatMap(([path, faces]) => {
      const properties = faces.get(face);
      return properties === undefined ? [] : [[path, properties] as [string, Properties]];
    });
  }

  take({ path = '', member, body = [] }: Message): void {
    if (member === 'PropertiesChanged') this.change(path, body[0] as string, plainProperties(body[1]));
    else if (member === 'InterfacesAdded') {
      const [added, faces] = body as [string, [string, unknown][]];
      this.put(added, faces);
      if (faces.some(([face]) => face === DEVICE)) this.events.device(added, this.of(added, DEVICE)!);
    } else if (member === 'InterfacesRemoved') this.remove(body[0] as string, body[1] as string[]);
    else if (member === 'NameOwnerChanged' && body[0] === 'org.bluez') {
      this.loaded = false;
      this.faces.clear();
      if (body[1] !== '') this.events.serviceGone();
    }
  }

  private change(path: string, face: string, changed: Properties): void {
    const { Value: value, ...rest } = changed;
    // Notifications are many and are kept by nobody here.
    if (face === CHARACTERISTIC && value !== undefined) this.events.value(path, Uint8Array.from(value as Uint8Array));
    const known = this.of(path, face);
    if (known === null) return;
    Object.assign(known, rest);
    if (face === DEVICE) this.events.device(path, known);
  }

  private put(path: string, faces: [string, unknown][]): void {
    const known = this.faces.get(path) ?? new Map<string, Properties>();
    for (const [face, dictionary] of faces) known.set(face, plainProperties(dictionary));
    this.faces.set(path, known);
  }

  private remove(path: string, faces: string[]): void {
    const known = this.faces.get(path);
    for (const face of faces) known?.delete(face);
    if (known?.size === 0) this.faces.delete(path);
    if (faces.includes(DEVICE)) this.events.gone(path);
  }
}
