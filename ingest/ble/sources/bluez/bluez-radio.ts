import { type Notice, notice } from '../../../../shared/notice.ts';
import { FaultError } from '../../../../shared/fault.ts';
import type { ConnectOptions, GattConnection, GattRadio } from '../gatt-radio.ts';
import { hostTime } from '../host-clock.ts';
import { bondRefused, linkFailed, problemOf, sensorUnreachable } from '../radio-faults.ts';
import { BOND_TIMEOUT_MS, CONNECT_TIMEOUT_MS, LISTEN_S } from '../radio-times.ts';
import { RadioWatch } from '../radio-watch.ts';
import type { SensorFound, SourceState } from '../sensor-found.ts';
import { BluezBus } from './bluez-bus.ts';
import { BluezConnection } from './bluez-connection.ts';
import { ADAPTER, BluezObjects, DEVICE, type Properties } from './bluez-objects.ts';
import { BondingAgent } from './bonding-agent.ts';

/** One connection to the bus and what is known over it; a new one is made when it dies. */
interface Session {
  bus: BluezBus;
  objects: BluezObjects;
  agent: BondingAgent;
}

/** Radio on Linux: BlueZ over the message bus, asked directly. */
export class BluezRadio implements GattRadio {
  private session: Session | null = null;
  private readonly links = new Set<BluezConnection>();
  private found: ((sensor: SensorFound) => void) | null = null;
  /** Connections that wait to hear their sensor. */
  private listening = 0;
  private readonly watch = new RadioWatch(() => this.listen());
  private readonly listen_s: number;

  /** @param listen_s how long a sensor that the machine does not know is listened for */
  constructor(listen_s = LISTEN_S) {
    this.listen_s = listen_s;
  }

  state(): SourceState {
    return this.watch.state();
  }

  async startScan(found: (sensor: SensorFound) => void): Promise<void> {
    this.watch.start();
    this.found = found;
    await this.watch.look();
  }

  async stopScan(): Promise<void> {
    if (this.found === null) return;
    this.found = null;
    await this.stopDiscovery();
  }

  async connect(sensor_id: string, options: ConnectOptions): Promise<GattConnection> {
    this.watch.start();
    const adapter = await this.adapter();
    const session = this.session!;
    const path = await this.heard(session, adapter, sensor_id);
    const link = new BluezConnection(path, session.bus, (reason) => {
      this.links.delete(link);
      options.lost(reason);
    });
    this.links.add(link);
    try {
      await session.bus.call(path, DEVICE, 'Connect', { limit_ms: CONNECT_TIMEOUT_MS }).catch((error) => {
        throw linkFailed(sensor_id, 'not_connected', error.message);
      });
      if (options.bonding !== 'none') await this.bond(session, path, sensor_id, options);
      await this.resolved(session, path, sensor_id);
      link.use(session.objects);
      return link;
    } catch (error) {
      this.links.delete(link);
      await link.disconnect();
      throw error instanceof FaultError ? error : linkFailed(sensor_id, 'failed', (error as Error).message);
    }
  }

  async close(): Promise<void> {
    this.watch.close();
    await this.stopScan();
    for (const link of [...this.links]) await link.disconnect();
    this.session?.bus.close();
    this.session = null;
  }

  /** @throws FaultError SENSOR_BOND_REFUSED */
  private async bond(session: Session, path: string, sensor_id: string, options: ConnectOptions): Promise<void> {
    if (session.objects.of(path, DEVICE)?.Paired === true) return;
    const given = options.bonding === 'with_code' ? options.code : null;
    session.agent.setCode(path, given);
    await session.agent.register(session.bus).catch(() => {});
    await session.bus.call(path, DEVICE, 'Pair', { limit_ms: BOND_TIMEOUT_MS }).catch((error) => {
      throw bondRefused(sensor_id, error.message, given !== null);
    });
  }

  /** Waits until BlueZ has read what the sensor offers. */
  private async resolved({ objects }: Session, path: string, sensor_id: string): Promise<void> {
    const until = hostTime() + CONNECT_TIMEOUT_MS / 1000;
    while (objects.of(path, DEVICE)?.ServicesResolved !== true) {
      const gone = objects.of(path, DEVICE)?.Connected !== true;
      if (gone || hostTime() > until) throw sensorUnreachable(sensor_id, 'no_services');
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
  }

  /**
   * BlueZ knows a sensor that is not paired only while it searches and for some 30 s after; after a restart it knows none.
   * So a sensor that is not known is listened for. @returns its path
   */
  private async heard({ bus, objects }: Session, adapter: string, sensor_id: string): Promise<string> {
    const path = () => objects.all(DEVICE).find(([, { Address }]) => Address === sensor_id)?.[0];
    this.listening++;
    try {
      const until = hostTime() + this.listen_s;
      for (let known = path(); ; known = path()) {
        if (known !== undefined) return known;
        if (hostTime() > until) throw sensorUnreachable(sensor_id, 'not_heard');
        if (objects.of(adapter, ADAPTER)?.Discovering !== true) {
          await bus.call(adapter, ADAPTER, 'StartDiscovery').catch(() => {});
        }
        await new Promise((resolve) => setTimeout(resolve, 100));
      }
    } finally {
      this.listening--;
      // A search slows connections down; it goes on only for those who still wait or look.
      if (this.listening === 0 && this.found === null) await this.stopDiscovery();
    }
  }

  private async stopDiscovery(): Promise<void> {
    const { session } = this;
    for (const [path, { Discovering }] of session?.objects.all(ADAPTER) ?? []) {
      if (Discovering === true) await session!.bus.call(path, ADAPTER, 'StopDiscovery').catch(() => {});
    }
  }

  /** Path of the first adapter that is switched on. @throws FaultError RADIO_UNAVAILABLE */
  private async adapter(): Promise<string> {
    if (process.platform !== 'linux') throw this.watch.unavailable('platform');
    const { bus, objects } = this.openSession();
    await objects.load(bus).catch((error) => {
      throw this.watch.unavailable(problemOf(error, bus.error));
    });
    const adapters = objects.all(ADAPTER);
    if (adapters.length === 0) throw this.watch.unavailable('adapter');
    const on = adapters.find(([, { Powered }]) => Powered === true);
    if (on === undefined) throw this.watch.unavailable('off');
    this.watch.problem = null;
    return on[0];
  }

  private openSession(): Session {
    if (this.session !== null && !this.session.bus.ended) return this.session;
    const objects = new BluezObjects({
      value: (path, bytes) => {
        for (const link of this.links) if (path.startsWith(`${link.path}/`)) link.value(path, bytes);
      },
      device: (path, properties) => {
        if (properties.Connected === false) this.lose(path);
        else if (this.found !== null && properties.Connected !== true) this.tell(properties);
      },
      gone: (path) => this.lose(path),
      serviceGone: () => {
        this.watch.problem = 'service';
        this.loseAll(notice('service_stopped'));
      },
    });
    const bus = new BluezBus({
      signal: (message) => objects.take(message),
      ended: () => {
        if (this.watch.closed) return;
        this.watch.problem = 'bus';
        this.loseAll(notice('bus_ended'));
      },
    });
    this.session = { bus, objects, agent: new BondingAgent() };
    return this.session;
  }

  private lose(path: string): void {
    for (const link of [...this.links])
      if (link.path === path && link.services.length > 0) link.lose(notice('link_broke'));
  }

  private loseAll(reason: Notice): void {
    for (const link of [...this.links]) link.lose(reason);
  }

  private async listen(): Promise<void> {
    const adapter = await this.adapter();
    const { bus, objects } = this.session!;
    if (this.found === null) return;
    if (objects.of(adapter, ADAPTER)?.Discovering !== true) await bus.call(adapter, ADAPTER, 'StartDiscovery');
    for (const [, properties] of objects.all(DEVICE)) this.tell(properties);
  }

  private tell({ Address, Name, Alias, RSSI, UUIDs }: Properties): void {
    this.found?.({
      sensor_id: String(Address),
      name: String(Name ?? Alias ?? Address),
      rssi_dbm: typeof RSSI === 'number' ? RSSI : null,
      service_uuids: (UUIDs as string[] | undefined) ?? [],
    });
  }
}
