/**
 * Radio on Linux: BlueZ over D-Bus by node-ble. With the files beside it the only place that knows the library; what it gets
 * wrong is put right here (the list is in ingest/ble/README.md).
 */
import { type Notice, notice } from '../../../../shared/notice.ts';
import type nodeBle from 'node-ble';
import { hostTime } from '../host-clock.ts';
import type { ConnectOptions, GattConnection, GattRadio } from '../gatt-radio.ts';
import type { SensorFound, SourceState } from '../packet-source.ts';
import { bondRefused, linkFailed, problemOf, sensorUnreachable } from '../radio-faults.ts';
import { BOND_TIMEOUT_MS, CALL_TIMEOUT_MS, CONNECT_TIMEOUT_MS, LISTEN_S } from '../radio-times.ts';
import { RadioWatch } from '../radio-watch.ts';
import { within } from '../within.ts';
import { type BusSession, type Device, type Gatt, openBusSession } from './bus-session.ts';
import { NodeBleConnection } from './node-ble-connection.ts';
import { FaultError } from '../../../../shared/fault.ts';

export class NodeBleRadio implements GattRadio {
  private session: BusSession | null = null;
  private readonly links = new Set<NodeBleConnection>();
  private scan: { found: (sensor: SensorFound) => void; devices: Map<string, Device> } | null = null;
  /** Connections that wait to hear their sensor. */
  private listening = 0;
  private readonly watch = new RadioWatch(() => this.look());
  private readonly listen_s: number;

  /** @param listen_s how long a sensor that the machine does not know is listened for */
  constructor(listen_s = LISTEN_S) {
    this.listen_s = listen_s;
  }

  state(): SourceState {
    return this.watch.state();
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
    this.watch.start();
    this.scan = { found, devices: this.scan?.devices ?? new Map() };
    await this.watch.look();
  }

  async stopScan(): Promise<void> {
    if (this.scan === null) return;
    for (const device of this.scan.devices.values()) device.helper.removeListeners();
    this.scan = null;
    const adapter = await this.adapter().catch(() => null);
    await within(adapter?.stopDiscovery(), CALL_TIMEOUT_MS, 'stop of the search').catch(() => {});
  }

  async connect(sensor_id: string, options: ConnectOptions): Promise<GattConnection> {
    this.watch.start();
    const adapter = await this.adapter();
    const session = this.session!;
    const device = await this.heardDevice(adapter, sensor_id);
    const link = new NodeBleConnection(device, session, (reason) => {
      this.links.delete(link);
      options.lost(reason);
    });
    try {
      await within(device.connect(), CONNECT_TIMEOUT_MS, 'connection').catch((error) => {
        throw linkFailed(sensor_id, 'not_connected', error.message);
      });
      device.on('disconnect', () => link.lose(notice('link_broke')));
      if (options.bonding !== 'none') await this.bond(session, device, sensor_id, options);
      const gatt = await this.resolvedServices(sensor_id, device);
      const props = await within(device.helper.props(), CALL_TIMEOUT_MS, 'question for strength').catch(() => null);
      await within(link.use(gatt, props), CALL_TIMEOUT_MS, 'list of characteristics');
      this.links.add(link);
      return link;
    } catch (error) {
      await link.disconnect();
      throw error instanceof FaultError ? error : linkFailed(sensor_id, 'failed', (error as Error).message);
    }
  }

  /** @throws FaultError SENSOR_BOND_REFUSED */
  private async bond(
    session: BusSession,
    device: Device,
    sensor_id: string,
    { bonding, code }: ConnectOptions,
  ): Promise<void> {
    if (await within(device.isPaired(), CALL_TIMEOUT_MS, 'question for the bond')) return;
    const given = bonding === 'with_code' ? code : null;
    session.agent.setCode(device.helper.object, given);
    await within(session.agent.register(session.bus), CALL_TIMEOUT_MS, 'agent').catch(() => {});
    await within(device.pair(), BOND_TIMEOUT_MS, 'bond').catch((error) => {
      throw bondRefused(sensor_id, error.message, given !== null);
    });
  }

  async close(): Promise<void> {
    this.watch.close();
    await this.stopScan();
    this.session?.destroy();
    this.session = null;
  }

  /**
   * BlueZ knows a sensor that is not paired only while it searches and for some 30 s after; after a restart it knows none.
   * So a sensor that is not known is listened for.
   */
  private async heardDevice(adapter: nodeBle.Adapter, sensor_id: string): Promise<Device> {
    const get = async () => {
      const device = (await within(adapter.getDevice(sensor_id), CALL_TIMEOUT_MS, 'question for the sensor')) as Device;
      // Its path may still be listed though BlueZ has just forgotten it: known is what answers.
      await within(device.isConnected(), CALL_TIMEOUT_MS, 'question for the sensor');
      return device;
    };
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
      throw sensorUnreachable(sensor_id, 'not_heard');
    } finally {
      this.listening--;
      // A search slows connections down; it goes on only for those who still wait or look.
      if (this.listening === 0 && this.scan === null) {
        await within(adapter.stopDiscovery(), CALL_TIMEOUT_MS, 'stop of the search').catch(() => {});
      }
    }
  }

  /** Asks again and again, since node-ble's own wait can miss the change and then never ends. */
  private async resolvedServices(sensor_id: string, device: Device): Promise<Gatt> {
    const until = hostTime() + CONNECT_TIMEOUT_MS / 1000;
    for (;;) {
      const props = await within(device.helper.props(), CALL_TIMEOUT_MS, 'question for services');
      if (props.ServicesResolved === true) break;
      if (props.Connected === false || hostTime() > until) throw sensorUnreachable(sensor_id, 'no_services');
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    return (await within(device.gatt(), CONNECT_TIMEOUT_MS, 'list of services')) as Gatt;
  }

  /** The first adapter that is switched on. @throws FaultError RADIO_UNAVAILABLE */
  private async adapter(): Promise<nodeBle.Adapter> {
    if (process.platform !== 'linux') throw this.watch.unavailable('platform');
    const { bluetooth } = this.openSession();
    const names = await within(bluetooth.adapters(), CALL_TIMEOUT_MS, 'question for adapters').catch((error) => {
      throw this.watch.unavailable(problemOf(error, this.session?.error ?? null));
    });
    if (names.length === 0) throw this.watch.unavailable('adapter');
    for (const name of names) {
      const adapter = await within(bluetooth.getAdapter(name), CALL_TIMEOUT_MS, 'question for the adapter');
      if (await within(adapter.isPowered(), CALL_TIMEOUT_MS, 'question for power').catch(() => false)) {
        this.watch.problem = null;
        return adapter;
      }
    }
    throw this.watch.unavailable('off');
  }

  private openSession(): BusSession {
    if (this.session !== null && !this.session.ended) return this.session;
    this.session = openBusSession({
      ended: () => {
        if (this.watch.closed) return;
        this.watch.problem = 'bus';
        this.loseAll(notice('bus_ended'));
      },
      serviceGone: () => {
        this.watch.problem = 'service';
        this.loseAll(notice('service_stopped'));
      },
    });
    return this.session;
  }

  private loseAll(reason: Notice): void {
    if (this.scan !== null) this.scan.devices.clear();
    for (const link of [...this.links]) link.lose(reason);
  }

  private async look(): Promise<void> {
    const adapter = await this.adapter();
    if (this.scan !== null) await this.listen(adapter, this.scan);
  }

  private async listen(adapter: nodeBle.Adapter, scan: NonNullable<NodeBleRadio['scan']>): Promise<void> {
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
