import type dbus from 'dbus-next';
import nodeBle from 'node-ble';
import { BluezAgent } from './bluez-agent.ts';
import { repairMatchRules } from './repair-match-rules.ts';

/** What node-ble has inside but does not declare. */
interface Helper {
  object: string;
  props(): Promise<Record<string, unknown>>;
  removeListeners(): void;
}
export type Device = nodeBle.Device & { helper: Helper };
export type Characteristic = nodeBle.GattCharacteristic & { helper: Helper };
export type Service = nodeBle.GattService & { _characteristics: Record<string, Characteristic> };
export type Gatt = nodeBle.GattServer & { _services: Record<string, Service> };
export type Bus = dbus.MessageBus & { _connection: NodeJS.EventEmitter };

/** One connection to the bus; a new one is made when it dies. */
export interface BusSession {
  bluetooth: nodeBle.Bluetooth;
  bus: Bus;
  agent: BluezAgent;
  ended: boolean;
  /** Why it ended, where the system told. */
  error: (Error & { code?: string }) | null;
  /** Match rules in force on the bus. */
  rules: Map<string, number>;
  destroy(): void;
}

export function openBusSession(tell: { ended(): void; serviceGone(): void }): BusSession {
  const { bluetooth, destroy } = nodeBle.createBluetooth();
  const bus = (bluetooth as unknown as { dbus: Bus }).dbus;
  const session: BusSession = {
    bluetooth,
    bus,
    agent: new BluezAgent(),
    ended: false,
    error: null,
    rules: new Map(),
    destroy,
  };
  const end = (error?: Error) => {
    session.error ??= error ?? null;
    if (session.ended) return;
    session.ended = true;
    tell.ended();
  };
  bus.on('error', end);
  bus._connection.on('end', () => end());
  session.rules = repairMatchRules(bus);
  watchBlueZ(bus, () => tell.serviceGone());
  return session;
}

/** node-ble stays silent when the service dies or changes hands: ask the bus itself. */
function watchBlueZ(bus: Bus, gone: () => void): void {
  const rule = "type='signal',sender='org.freedesktop.DBus',member='NameOwnerChanged',arg0='org.bluez'";
  bus.on('message', (message: dbus.Message) => {
    if (message.member === 'NameOwnerChanged' && message.body[0] === 'org.bluez' && message.body[1] !== '') gone();
  });
  (bus as unknown as { _addMatch(rule: string): Promise<unknown> })._addMatch(rule).catch(() => {});
}
