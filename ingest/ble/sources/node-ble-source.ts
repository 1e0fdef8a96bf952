/**
 * Radio on Linux: BlueZ over D-Bus by node-ble. The only file that knows the library; what it gets wrong is put right here
 * (the list is in DEVELOPERS.md, 'Bluetooth').
 */
import type dbus from 'dbus-next';
import nodeBle from 'node-ble';
import { FaultError } from '../../../shared/fault.ts';
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { hostTime } from './host-clock.ts';
import type { LinkHandlers, PacketSource, SensorFound, SensorLink, SourceState } from './packet-source.ts';
import {
  notAsDescribed,
  RADIO_PROBLEMS,
  type RadioProblem,
  radioUnavailable,
  sensorUnreachable,
} from './radio-faults.ts';
import { type ReadCharacteristic, readBattery, readInformation } from './read-information.ts';
import { repairMatchRules } from './repair-match-rules.ts';
import { streamWrites } from '../../../shared/stream-writes.ts';
import { within } from './within.ts';

const CALL_TIMEOUT_MS = 4000;
const CONNECT_TIMEOUT_MS = 12_000;
const WATCH_MS = 1000;
/** Several advertising intervals of the slowest sensors, seconds. */
const LISTEN_S = 10;

/** What node-ble has inside but does not declare. */
interface Helper {
  props(): Promise<Record<string, unknown>>;
  removeListeners(): void;
}
type Device = nodeBle.Device & { helper: Helper };
type Characteristic = nodeBle.GattCharacteristic & { helper: Helper };
type Service = nodeBle.GattService & { _characteristics: Record<string, Characteristic> };
type Gatt = nodeBle.GattServer & { _services: Record<string, Service> };
type Bus = dbus.MessageBus & { _connection: NodeJS.EventEmitter };

/** One connection to the bus; a new one is made when it dies. */
interface Session {
  bluetooth: nodeBle.Bluetooth;
  bus: Bus;
  destroy(): void;
  ended: boolean;
  rules: Map<string, number>;
}

export class NodeBleSource implements PacketSource {
  readonly kind = 'radio';
  private session: Session | null = null;
  private problem = '';
  private readonly links = new Set<{ lose(reason: string): void }>();
  private scan: { found: (sensor: SensorFound) => void; devices: Map<string, Device> } | null = null;
  private watching = false;
  /** Connections that wait to hear their sensor. */
  private listening = 0;
  private closed = false;
  private readonly listen_s: number;
  /** Set at first use: until then nothing is asked of the machine. */
  private watch: NodeJS.Timeout | null = null;

  /** @param listen_s how long a sensor that the machine does not know is listened for */
  constructor(listen_s = LISTEN_S) {
    this.listen_s = listen_s;
  }

  state(): SourceState {
    return { ready: this.problem === '', problem: this.problem };
  }

  /** How many match rules are in force on the bus; must not grow. */
  matchRules(): number {
    return this.session?.rules.size ?? 0;
  }

  /** How many listeners hang on the bus; must not grow. */
  busListeners(): number {
    const bus = this.session?.bus as unknown as { _signals: NodeJS.EventEmitter } | undefined;
    if (bus === undefined) return 0;
    return bus._signals.eventNames().reduce((sum, name) => sum + bus._signals.listenerCount(name), 0);
  }

  async startScan(found: (sensor: SensorFound) => void): Promise<void> {
    this.keepWatch();
    this.scan = { found, devices: this.scan?.devices ?? new Map() };
    await this.look();
  }

  async stopScan(): Promise<void> {
    if (this.scan === null) return;
    for (const device of this.scan.devices.values()) device.helper.removeListeners();
    this.scan = null;
    const adapter = await this.adapter().catch(() => null);
    await within(adapter?.stopDiscovery(), CALL_TIMEOUT_MS, 'stop of the search').catch(() => {});
  }

  async open(
    sensor_id: string,
    description: StreamDescription,
    settings: StreamSettings,
    handlers: LinkHandlers,
  ): Promise<SensorLink> {
    this.keepWatch();
    const adapter = await this.adapter();
    const session = this.session!;
    const device = await this.heardDevice(adapter, sensor_id);
    const held: Characteristic[] = [];
    const release = () => {
      for (const characteristic of held) {
        characteristic.removeAllListeners();
        characteristic.helper.removeListeners();
      }
      device.removeAllListeners();
      device.helper.removeListeners();
    };
    const link = {
      over: false,
      lose: (reason: string) => {
        if (link.over) return;
        link.over = true;
        this.links.delete(link);
        if (!session.ended) release();
        handlers.lost(reason);
      },
    };
    try {
      await within(device.connect(), CONNECT_TIMEOUT_MS, 'connection').catch((error) => {
        throw sensorUnreachable(sensor_id, `did not connect (${error.message})`);
      });
      device.on('disconnect', () => link.lose('the radio link broke'));
      const gatt = await this.resolvedServices(sensor_id, device);
      for (const service of Object.values(gatt._services)) held.push(...Object.values(service._characteristics));
      const data = find(gatt, description.service_uuid, description.data_characteristic_uuid, sensor_id);
      const read: ReadCharacteristic = (service_uuid, characteristic_uuid) =>
        within(
          gatt._services[service_uuid]?._characteristics[characteristic_uuid]?.readValue(),
          CALL_TIMEOUT_MS,
          'reading of a characteristic',
        ).catch(() => undefined);
      const information = await readInformation(read);
      data.on('valuechanged', (bytes: Buffer) => {
        if (!link.over) handlers.packet(bytes, hostTime());
      });
      this.links.add(link);
      await within(data.startNotifications(), CALL_TIMEOUT_MS, 'start of notifications');
      const { setUp, stop } = streamWrites(description, settings);
      const write = async (entry: { characteristic_uuid: string; bytes: Uint8Array }) => {
        const target = find(gatt, description.service_uuid, entry.characteristic_uuid, sensor_id);
        await within(target.writeValueWithResponse(Buffer.from(entry.bytes)), CALL_TIMEOUT_MS, 'write to the sensor');
      };
      for (const entry of setUp) await write(entry);
      return {
        information,
        readBattery: () => readBattery(read),
        close: async () => {
          if (link.over) return;
          link.over = true;
          this.links.delete(link);
          for (const entry of stop) await write(entry).catch(() => {});
          await within(data.stopNotifications(), CALL_TIMEOUT_MS, 'stop').catch(() => {});
          await within(device.disconnect(), CALL_TIMEOUT_MS, 'disconnection').catch(() => {});
          if (!session.ended) release();
        },
      };
    } catch (error) {
      link.over = true;
      this.links.delete(link);
      await within(device.disconnect(), CALL_TIMEOUT_MS, 'disconnection').catch(() => {});
      if (!session.ended) release();
      throw error instanceof FaultError ? error : sensorUnreachable(sensor_id, (error as Error).message);
    }
  }

  async close(): Promise<void> {
    this.closed = true;
    if (this.watch !== null) clearInterval(this.watch);
    await this.stopScan();
    this.session?.destroy();
    this.session = null;
  }

  /**
   * BlueZ knows a sensor that is not paired only while it searches and for some 30 s after; after a restart it knows none.
   * So a sensor that is not known is listened for.
   */
  private async heardDevice(adapter: nodeBle.Adapter, sensor_id: string): Promise<Device> {
    const get = async () =>
      (await within(adapter.getDevice(sensor_id), CALL_TIMEOUT_MS, 'question for the sensor')) as Device;
    const known = await get().catch(() => null);
    if (known !== null) return known;
    this.listening++;
    try {
      const until = hostTime() + this.listen_s;
      while (hostTime() < until) {
        if (!(await within(adapter.isDiscovering(), CALL_TIMEOUT_MS, 'search'))) {
          await within(adapter.startDiscovery(), CALL_TIMEOUT_MS, 'search').catch(() => {});
        }
        await new Promise((resolve) => setTimeout(resolve, 200));
        const device = await get().catch(() => null);
        if (device !== null) return device;
      }
      throw sensorUnreachable(sensor_id, 'was not heard');
    } finally {
      this.listening--;
      // A search slows connections down; it goes on only for those who still wait or look.
      if (this.listening === 0 && this.scan === null) {
        await within(adapter.stopDiscovery(), CALL_TIMEOUT_MS, 'stop of the search').catch(() => {});
      }
    }
  }

  private keepWatch(): void {
    this.watch ??= setInterval(() => this.look(), WATCH_MS).unref();
  }

  /** Asks again and again, since node-ble's own wait can miss the change and then never ends. */
  private async resolvedServices(sensor_id: string, device: Device): Promise<Gatt> {
    const until = hostTime() + CONNECT_TIMEOUT_MS / 1000;
    for (;;) {
      const props = await within(device.helper.props(), CALL_TIMEOUT_MS, 'question for services');
      if (props.ServicesResolved === true) break;
      if (props.Connected === false || hostTime() > until)
        throw sensorUnreachable(sensor_id, 'did not tell its services');
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    return (await within(device.gatt(), CONNECT_TIMEOUT_MS, 'list of services')) as Gatt;
  }

  /** The first adapter that is switched on. @throws FaultError RADIO_UNAVAILABLE */
  private async adapter(): Promise<nodeBle.Adapter> {
    if (process.platform !== 'linux') throw this.unavailable('platform');
    const { bluetooth } = this.openSession();
    const names = await within(bluetooth.adapters(), CALL_TIMEOUT_MS, 'question for adapters').catch((error) => {
      const service_gone = /ServiceUnknown|NameHasNoOwner|not provided|UnknownMethod|does not exist/.test(
        `${error.type} ${error.message}`,
      );
      throw this.unavailable(service_gone ? 'service' : 'bus');
    });
    if (names.length === 0) throw this.unavailable('adapter');
    for (const name of names) {
      const adapter = await within(bluetooth.getAdapter(name), CALL_TIMEOUT_MS, 'question for the adapter');
      if (await within(adapter.isPowered(), CALL_TIMEOUT_MS, 'question for power').catch(() => false)) {
        this.problem = '';
        return adapter;
      }
    }
    throw this.unavailable('off');
  }

  private openSession(): Session {
    if (this.session !== null && !this.session.ended) return this.session;
    const { bluetooth, destroy } = nodeBle.createBluetooth();
    const bus = (bluetooth as unknown as { dbus: Bus }).dbus;
    const session: Session = { bluetooth, bus, destroy, ended: false, rules: new Map() };
    this.session = session;
    const end = () => {
      if (session.ended) return;
      session.ended = true;
      if (this.closed) return;
      this.problem = RADIO_PROBLEMS.bus;
      this.loseAll('the message bus of the machine ended');
    };
    bus.on('error', end);
    bus._connection.on('end', end);
    session.rules = repairMatchRules(bus);
    watchBlueZ(bus, () => {
      this.problem = RADIO_PROBLEMS.service;
      this.loseAll('the Bluetooth service of the machine stopped');
    });
    return session;
  }

  private loseAll(reason: string): void {
    if (this.scan !== null) this.scan.devices.clear();
    for (const link of [...this.links]) link.lose(reason);
  }

  private unavailable(problem: RadioProblem): FaultError {
    this.problem = RADIO_PROBLEMS[problem];
    return radioUnavailable(problem);
  }

  /** Once a second: is the radio there, and while a search is on, what does it hear? */
  private async look(): Promise<void> {
    if (this.watching || this.closed) return;
    this.watching = true;
    try {
      const adapter = await this.adapter();
      if (this.scan !== null) await this.listen(adapter, this.scan);
    } catch {
      // The state says what is wrong; the next look finds out whether it has passed.
    } finally {
      this.watching = false;
    }
  }

  private async listen(adapter: nodeBle.Adapter, scan: NonNullable<NodeBleSource['scan']>): Promise<void> {
    if (!(await within(adapter.isDiscovering(), CALL_TIMEOUT_MS, 'search'))) {
      await within(adapter.startDiscovery(), CALL_TIMEOUT_MS, 'search');
    }
    for (const sensor_id of await within(adapter.devices(), CALL_TIMEOUT_MS, 'search')) {
      let device = scan.devices.get(sensor_id);
      device ??= (await within(adapter.getDevice(sensor_id), CALL_TIMEOUT_MS, 'search')) as Device;
      scan.devices.set(sensor_id, device);
      const props = await within(device.helper.props(), CALL_TIMEOUT_MS, 'search').catch(() => null);
      if (props === null) {
        device.helper.removeListeners();
        scan.devices.delete(sensor_id);
        continue;
      }
      scan.found({
        sensor_id,
        name: String(props.Name ?? props.Alias ?? sensor_id),
        rssi_dbm: typeof props.RSSI === 'number' ? props.RSSI : null,
        service_uuids: (props.UUIDs as string[] | undefined) ?? [],
      });
    }
  }
}

/** node-ble stays silent when the service dies or changes hands: ask the bus itself. */
function watchBlueZ(bus: Bus, gone: () => void): void {
  const rule = "type='signal',sender='org.freedesktop.DBus',member='NameOwnerChanged',arg0='org.bluez'";
  bus.on('message', (message: dbus.Message) => {
    if (message.member === 'NameOwnerChanged' && message.body[0] === 'org.bluez' && message.body[1] !== '') gone();
  });
  (bus as unknown as { _addMatch(rule: string): Promise<unknown> })._addMatch(rule).catch(() => {});
}

function find(gatt: Gatt, service_uuid: string, characteristic_uuid: string, sensor_id: string): Characteristic {
  const characteristic = gatt._services[service_uuid]?._characteristics[characteristic_uuid];
  if (characteristic !== undefined) return characteristic;
  throw notAsDescribed(sensor_id, service_uuid, characteristic_uuid);
}
