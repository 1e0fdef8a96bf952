/** One connection to the message bus by @homebridge/dbus-native, which with the files beside it alone knows that library. */
import dbus, { type Message, type MessageBus } from '@homebridge/dbus-native';
import { within } from '../within.ts';
import { CALL_TIMEOUT_MS } from '../radio-times.ts';

const BUS = 'org.freedesktop.DBus';
const SYSTEM_BUS = 'unix:path=/var/run/dbus/system_bus_socket';
/** All that BlueZ tells, and who owns its name: two rules, however many sensors. */
const RULES = [
  "type='signal',sender='org.bluez'",
  `type='signal',sender='${BUS}',member='NameOwnerChanged',arg0='org.bluez'`,
];

export interface BusEvents {
  signal(message: Message): void;
  /** The connection is over; a new one is to be made. */
  ended(): void;
}

/** A failure as the bus answers it. */
export class BusError extends Error {
  constructor(name: string, message: string) {
    super(message || name);
    this.name = name;
  }
}

export class BluezBus {
  ended = false;
  /** Why it ended, where the system told. */
  error: Error | null = null;
  private readonly bus: MessageBus;
  private readonly events: BusEvents;
  private readonly ready: Promise<unknown>;

  constructor(events: BusEvents) {
    this.events = events;
    this.bus = dbus.createClient({ busAddress: process.env.DBUS_SYSTEM_BUS_ADDRESS ?? SYSTEM_BUS });
    const { connection } = this.bus;
    connection.on('error', (error: Error) => this.end(error));
    connection.on('end', () => this.end());
    connection.on('message', (message: Message) => {
      if (message.type === dbus.messageType.signal && !this.ended) events.signal(message);
    });
    this.ready = Promise.all(
      RULES.map((rule) => this.send(BUS, '/org/freedesktop/DBus', BUS, 'AddMatch', 's', [rule])),
    );
    this.ready.catch(() => {});
  }

  /** Calls a method of BlueZ. @throws BusError, Error when no answer comes in time */
  async call(
    path: string,
    face: string,
    member: string,
    { signature, body, limit_ms = CALL_TIMEOUT_MS }: { signature?: string; body?: unknown[]; limit_ms?: number } = {},
  ): Promise<unknown> {
    await within(this.ready, CALL_TIMEOUT_MS, 'message bus');
    return within(this.send('org.bluez', path, face, member, signature, body), limit_ms, member);
  }

  export(
    implementation: Record<string, unknown>,
    path: string,
    name: string,
    methods: Record<string, [string, string]>,
  ): void {
    this.bus.exportInterface(implementation, path, { name, methods });
  }

  close(): void {
    this.ended = true;
    this.bus.connection.end();
  }

  private send(
    destination: string,
    path: string,
    face: string,
    member: string,
    signature?: string,
    body?: unknown[],
  ): Promise<unknown> {
    if (this.ended) return Promise.reject(this.error ?? new Error('the message bus ended'));
    return new Promise((resolve, reject) => {
      this.bus.invoke({ destination, path, interface: face, member, signature, body }, (error, value) => {
        if (!error) resolve(value);
        else if (error instanceof Error) reject(error);
        else
          reject(new BusError(String(error.name ?? 'org.freedesktop.DBus.Error.Failed'), String(error.message ?? '')));
      });
    });
  }

  private end(error?: Error): void {
    this.error ??= error ?? null;
    if (this.ended) return;
    this.ended = true;
    this.events.ended();
  }
}

/** Properties by name, of a dictionary of variants as the library hands it over. */
export function plainProperties(dictionary: unknown): Record<string, unknown> {
  const entries = dictionary as [name: string, variant: [signature: unknown, values: unknown[]]][];
  return Object.fromEntries(entries.map(([name, [, values]]) => [name, values[0]]));
}
