/** org.bluez on one connection to the bus: adapter, devices and their services. Dies and is born again as bluetoothd does. */
import dbus from 'dbus-next';
import {
  BATTERY_LEVEL_UUID,
  BATTERY_SERVICE_UUID,
  DEVICE_INFORMATION_UUID,
  standardUuid,
} from '../../../ingest/ble/packets/standard-services.ts';
import { characteristicsOf } from './characteristics-of.ts';
import { type BusObject, bluezError, makeObject, variants } from './bluez-objects.ts';
import { dataCharacteristics } from '../../../shared/packet-streams.ts';
import { FakePairing } from './fake-pairing.ts';
import type { FakeSensor } from './fake-sensor.ts';

const ADAPTER = '/org/bluez/hci0';
/** BlueZ takes 30 s. */
const FORGET_MS = 2000;
const CCCD = standardUuid(0x2902);

interface Peer {
  sensor: FakeSensor;
  device: BusObject;
  gatt: BusObject[];
  /** What it notifies by, by UUID. */
  told_by: Map<string, BusObject>;
  connected: boolean;
  fail_next: number;
  in_range: boolean;
  connects: number;
}

export class FakeAdapter {
  private readonly bus: dbus.MessageBus;
  private readonly peers = new Map<string, Peer>();
  private readonly objects = new Map<string, BusObject[]>();
  private readonly manager: BusObject;
  private adapter: BusObject;
  private alive = true;
  private advertisements = 0;
  private readonly pairing: FakePairing;

  constructor(address: string, sensors: FakeSensor[]) {
    this.bus = dbus.sessionBus({ busAddress: address });
    this.bus.on('error', () => {});
    this.pairing = new FakePairing(this.bus);
    // A bus that has just been killed or left takes nothing; the library would throw.
    const send = this.bus.send.bind(this.bus);
    this.bus.send = (message) => {
      try {
        send(message);
      } catch (error) {
        if (!/stream is closed/.test((error as Error).message)) throw error;
      }
    };
    this.manager = makeObject(
      '/',
      'org.freedesktop.DBus.ObjectManager',
      {},
      { GetManagedObjects: { in: '', out: 'a{oa{sa{sv}}}', call: () => this.managedObjects() } },
      { InterfacesAdded: 'oa{sa{sv}}', InterfacesRemoved: 'oas' },
    );
    this.bus.export('/', this.manager.iface);
    this.bus.export(
      '/org/bluez',
      makeObject(
        '/org/bluez',
        'org.bluez.AgentManager1',
        {},
        {
          RegisterAgent: { in: 'os', out: '', call: () => {} },
        },
      ).iface,
    );
    this.adapter = this.makeAdapter();
    this.add(this.adapter);
    for (const sensor of sensors) this.addPeer(sensor);
  }

  async own(): Promise<void> {
    await this.bus.requestName('org.bluez', 0);
  }

  /** As when bluetoothd stops: the name goes, and every link with it. */
  stop(): void {
    this.alive = false;
    for (const peer of this.peers.values()) peer.sensor.linkLost();
    this.bus.disconnect();
  }

  /** While a search is on, every advertisement heard changes the signal strength a little. */
  advertise(): void {
    if (!this.alive || this.adapter.properties.Discovering.value !== true) return;
    for (const peer of this.peers.values()) {
      if (!peer.in_range || peer.connected) continue;
      // As BlueZ does: a device that is not paired is known only once it has been heard.
      if (!this.objects.has(peer.device.path)) this.add(peer.device);
      this.advertisements++;
      const rssi_dbm = peer.sensor.options.rssi_dbm ?? -55;
      peer.device.change({ RSSI: rssi_dbm - (this.advertisements % 2) });
    }
  }

  /** As BlueZ does some time after a search: devices that are neither paired nor connected are no longer known. */
  private forgetUnheard(): void {
    if (!this.alive || this.adapter.properties.Discovering.value === true) return;
    for (const peer of this.peers.values()) if (!peer.connected) this.remove(peer.device.path);
  }

  /** Hands over what the sensors have; called on a grid of connection intervals. */
  tick(): void {
    for (const peer of this.peers.values()) {
      const data = dataCharacteristics(peer.sensor.options.description);
      const first = peer.told_by.get(data[0].characteristic_uuid);
      const notifying = peer.connected && first?.properties.Notifying.value === true;
      const out = peer.sensor.due(notifying).map(({ source, bytes }) => ({ ...data[source], bytes }));
      for (const { characteristic_uuid, bytes } of [...out, ...peer.sensor.answers()]) {
        const object = peer.told_by.get(characteristic_uuid);
        if (this.alive && object?.properties.Notifying.value === true) object.notify({ Value: Buffer.from(bytes) });
      }
    }
  }

  drop(address: string): void {
    const peer = this.peer(address);
    if (peer.connected) this.disconnected(peer);
  }

  setInRange(address: string, in_range: boolean): void {
    const peer = this.peer(address);
    peer.in_range = in_range;
    if (in_range) return;
    this.drop(address);
    this.remove(peer.device.path);
  }

  failNextConnects(address: string, count: number): void {
    this.peer(address).fail_next = count;
  }

  setBattery(address: string, percent: number): void {
    const peer = this.peer(address);
    peer.sensor.options.battery_percent = percent;
    const level = peer.gatt.find((object) => object.properties.UUID?.value === BATTERY_LEVEL_UUID);
    level?.change({ Value: Buffer.from([percent]) });
  }

  setAdapterPresent(present: boolean): void {
    if (present) {
      this.adapter = this.makeAdapter();
      this.add(this.adapter);
      return;
    }
    for (const peer of this.peers.values()) {
      if (peer.connected) this.disconnected(peer);
      this.remove(peer.device.path);
    }
    this.remove(ADAPTER);
  }

  connects(address: string): number {
    return this.peer(address).connects;
  }

  private peer(address: string): Peer {
    return this.peers.get(address)!;
  }

  private makeAdapter(): BusObject {
    const done = { in: '', out: '', call: () => {} };
    const adapter: BusObject = makeObject(
      ADAPTER,
      'org.bluez.Adapter1',
      {
        Address: { signature: 's', value: '00:00:5E:00:53:01' },
        AddressType: { signature: 's', value: 'public' },
        Name: { signature: 's', value: 'fake' },
        Alias: { signature: 's', value: 'fake' },
        Class: { signature: 'u', value: 0 },
        Powered: { signature: 'b', value: true },
        Discoverable: { signature: 'b', value: false },
        DiscoverableTimeout: { signature: 'u', value: 0 },
        Pairable: { signature: 'b', value: true },
        PairableTimeout: { signature: 'u', value: 0 },
        Discovering: { signature: 'b', value: false },
        UUIDs: { signature: 'as', value: [] },
        Roles: { signature: 'as', value: ['central'] },
      },
      {
        StartDiscovery: { ...done, call: () => adapter.change({ Discovering: true }) },
        StopDiscovery: {
          ...done,
          call: () => {
            adapter.change({ Discovering: false });
            setTimeout(() => this.forgetUnheard(), FORGET_MS);
          },
        },
        SetDiscoveryFilter: { in: 'a{sv}', out: '', call: () => {} },
        RemoveDevice: { in: 'o', out: '', call: () => {} },
      },
    );
    return adapter;
  }

  private addPeer(sensor: FakeSensor): void {
    const { address, name, description, rssi_dbm } = sensor.options;
    const path = `${ADAPTER}/dev_${address.replaceAll(':', '_')}`;
    const peer: Peer = {
      sensor,
      gatt: [],
      told_by: new Map(),
      connected: false,
      fail_next: 0,
      in_range: true,
      connects: 0,
      device: makeObject(
        path,
        'org.bluez.Device1',
        {
          Address: { signature: 's', value: address },
          AddressType: { signature: 's', value: 'random' },
          Name: { signature: 's', value: name },
          Alias: { signature: 's', value: name },
          Adapter: { signature: 'o', value: ADAPTER },
          RSSI: { signature: 'n', value: rssi_dbm ?? -55 },
          Connected: { signature: 'b', value: false },
          Paired: { signature: 'b', value: false },
          Bonded: { signature: 'b', value: false },
          Trusted: { signature: 'b', value: false },
          Blocked: { signature: 'b', value: false },
          LegacyPairing: { signature: 'b', value: false },
          ServicesResolved: { signature: 'b', value: false },
          UUIDs: { signature: 'as', value: [description.service_uuid] },
        },
        {
          Connect: { in: '', out: '', call: () => this.connect(peer) },
          Disconnect: {
            in: '',
            out: '',
            call: () => {
              if (peer.connected) this.disconnected(peer);
            },
          },
          Pair: { in: '', out: '', call: () => this.pair(peer) },
          CancelPairing: { in: '', out: '', call: () => {} },
        },
      ),
    };
    this.peers.set(address, peer);
  }

  private async pair(peer: Peer): Promise<void> {
    await this.pairing.pair(peer.device.path, peer.sensor.options.bond_code);
    peer.device.change({ Paired: true, Bonded: true });
  }

  private async connect(peer: Peer): Promise<void> {
    peer.connects++;
    if (peer.fail_next > 0) {
      peer.fail_next--;
      await pause(50);
      throw bluezError('Failed', 'le-connection-abort-by-local');
    }
    if (!peer.connected) {
      await pause(60);
      peer.connected = true;
      peer.device.change({ Connected: true });
      setTimeout(() => {
        if (peer.connected && this.alive) this.resolveServices(peer);
      }, 100);
    }
  }

  private disconnected(peer: Peer): void {
    peer.connected = false;
    peer.sensor.linkLost();
    peer.told_by.clear();
    for (const object of peer.gatt) this.remove(object.path);
    peer.gatt = [];
    peer.device.change({ ServicesResolved: false, Connected: false });
  }

  private resolveServices(peer: Peer): void {
    const { sensor, device } = peer;
    const { description, battery_percent } = sensor.options;
    const service = (number: number, uuid: string) => {
      const path = `${device.path}/service${number.toString().padStart(4, '0')}`;
      peer.gatt.push(
        makeObject(path, 'org.bluez.GattService1', {
          UUID: { signature: 's', value: uuid },
          Primary: { signature: 'b', value: true },
          Device: { signature: 'o', value: device.path },
          Includes: { signature: 'ao', value: [] },
        }),
      );
      return path;
    };
    const { notifying, written } = characteristicsOf(description);
    let number = 10;
    for (const service_uuid of new Set([...notifying, ...written].map((one) => one.service_uuid))) {
      const path = service(number++, service_uuid);
      const of = (list: typeof notifying) => list.filter((one) => one.service_uuid === service_uuid);
      for (const uuid of new Set(of(notifying).map((one) => one.characteristic_uuid))) {
        peer.told_by.set(uuid, this.characteristic(peer, path, 100 + number++, uuid, ['notify'], Buffer.alloc(0)));
      }
      for (const uuid of new Set(of(written).map((one) => one.characteristic_uuid))) {
        const flags = ['write', 'write-without-response'];
        this.characteristic(peer, path, 100 + number++, uuid, flags, Buffer.alloc(0), async (bytes) => {
          if (sensor.options.bond_code && device.properties.Paired.value !== true) {
            throw bluezError('NotPermitted', 'the sensor is not bonded');
          }
          const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join(' ');
          if (!(await sensor.write(hex))) throw bluezError('Failed', `the sensor knows no write ${hex}`);
        });
      }
    }
    const battery = service(80, BATTERY_SERVICE_UUID);
    this.characteristic(
      peer,
      battery,
      81,
      BATTERY_LEVEL_UUID,
      ['read', 'notify'],
      Buffer.from([battery_percent ?? 90]),
    );
    const about = service(90, DEVICE_INFORMATION_UUID);
    this.characteristic(peer, about, 91, standardUuid(0x2a26), ['read'], Buffer.from('2.1.0'));
    for (const object of peer.gatt) this.add(object);
    device.change({ ServicesResolved: true });
  }

  private characteristic(
    peer: Peer,
    service: string,
    number: number,
    uuid: string,
    flags: string[],
    value: Buffer,
    write: (bytes: Uint8Array) => unknown = () => {
      throw bluezError('NotPermitted', 'write');
    },
  ): BusObject {
    const path = `${service}/char${number.toString().padStart(4, '0')}`;
    const object: BusObject = makeObject(
      path,
      'org.bluez.GattCharacteristic1',
      {
        UUID: { signature: 's', value: uuid },
        Service: { signature: 'o', value: service },
        Value: { signature: 'ay', value },
        Notifying: { signature: 'b', value: false },
        Flags: { signature: 'as', value: flags },
        MTU: { signature: 'q', value: 247 },
      },
      {
        ReadValue: { in: 'a{sv}', out: 'ay', call: () => object.properties.Value.value },
        WriteValue: { in: 'aya{sv}', out: '', call: ((bytes: Uint8Array) => write(bytes)) as never },
        StartNotify: { in: '', out: '', call: () => object.change({ Notifying: true }) },
        StopNotify: { in: '', out: '', call: () => object.change({ Notifying: false }) },
      },
    );
    peer.gatt.push(object);
    if (flags.includes('notify')) {
      peer.gatt.push(
        makeObject(
          `${path}/desc${number.toString().padStart(4, '0')}`,
          'org.bluez.GattDescriptor1',
          {
            UUID: { signature: 's', value: CCCD },
            Characteristic: { signature: 'o', value: path },
            Value: { signature: 'ay', value: Buffer.from([0, 0]) },
          },
          {
            ReadValue: { in: 'a{sv}', out: 'ay', call: () => Buffer.from([0, 0]) },
            WriteValue: { in: 'aya{sv}', out: '', call: () => {} },
          },
        ),
      );
    }
    return object;
  }

  private add(object: BusObject): void {
    this.objects.set(object.path, [object]);
    this.bus.export(object.path, object.iface);
    this.signal('InterfacesAdded', 'oa{sa{sv}}', [object.path, { [object.name]: variants(object.properties) }]);
  }

  private remove(path: string): void {
    const [object] = this.objects.get(path) ?? [];
    if (object === undefined) return;
    this.objects.delete(path);
    this.bus.unexport(path, object.iface);
    this.signal('InterfacesRemoved', 'oas', [path, [object.name]]);
  }

  private signal(member: string, signature: string, body: unknown[]): void {
    if (!this.alive) return;
    this.bus.send(dbus.Message.newSignal('/', 'org.freedesktop.DBus.ObjectManager', member, signature, body));
  }

  private managedObjects() {
    return Object.fromEntries(
      [...this.objects].map(([path, objects]) => [
        path,
        Object.fromEntries(objects.map((object) => [object.name, variants(object.properties)])),
      ]),
    );
  }
}

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
