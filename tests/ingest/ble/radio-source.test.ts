import { spawnSync } from 'node:child_process';
import { afterEach, describe, expect, it } from 'vitest';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { machineRadio, RADIO_LIBRARIES } from '../../../ingest/ble/sources/machine/machine-radio.ts';
import { NodeBleSource } from '../../../ingest/ble/sources/node-ble/node-ble-source.ts';
import type { PacketSource, SensorFound, SensorLink } from '../../../ingest/ble/sources/packet-source.ts';
import { radioUnavailable } from '../../../ingest/ble/sources/radio-faults.ts';
import type { RadioProblem } from '../../../ingest/ble/sources/sensor-found.ts';
import { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import { FakeBluez, pause } from '../../helpers/fake-bluez/fake-bluez.ts';
import type { SimulatedSensorOptions } from '../../helpers/fake-bluez/simulated-sensor.ts';
import { said, told } from '../../helpers/told.ts';
import { account, numbersOf } from '../../helpers/numbered-samples.ts';

const radioWords = (problem: RadioProblem | null) =>
  problem === null ? '' : told(radioUnavailable(problem).fault).message;

const [bramble, teasel] = shippedDescriptions();
const has_bus = spawnSync('dbus-daemon', ['--version']).status === 0;

const SENSORS: SimulatedSensorOptions[] = [
  { address: 'C0:00:5E:00:53:0A', name: 'Bramble 0A', description: bramble, rssi_dbm: -48, first_counter: 65_500 },
  { address: 'C0:00:5E:00:53:0B', name: 'Teasel 0B', description: teasel, rssi_dbm: -61, battery_percent: 55 },
];

/** Waits for an event, on the busiest machine. */
async function until(what: string, there: () => boolean): Promise<void> {
  for (const end = Date.now() + 120_000; !there(); ) {
    if (Date.now() > end) throw new Error(`${what}: nothing within two minutes`);
    await pause(20);
  }
}

describe.skipIf(!has_bus).each(RADIO_LIBRARIES)('radio through %s on a D-Bus with a fake org.bluez', (library) => {
  const open: { close(): Promise<void> }[] = [];
  afterEach(async () => {
    for (const thing of open.splice(0).reverse()) await thing.close();
  });

  async function begin(sensors = SENSORS) {
    const fake = await FakeBluez.start(sensors);
    open.push(fake);
    process.env.DBUS_SYSTEM_BUS_ADDRESS = fake.address;
    const source = machineRadio(library, 2);
    open.push(source);
    return { fake, source };
  }

  function stream(source: PacketSource, sensor = SENSORS[0]) {
    const { description, address } = sensor;
    const assembler = new StreamAssembler(description, defaultSettings(description));
    const lost: string[] = [];
    const connect = (): Promise<SensorLink> => {
      assembler.linkStarted();
      return source.open(address, description, defaultSettings(description), {
        packet: (bytes, arrival_s) => assembler.add(bytes, arrival_s),
        lost: (reason) => lost.push(said(reason)),
      });
    };
    /** Goes on until a connection is there, as the capture does. */
    const insist = async () => {
      for (;;) {
        const link = await connect().catch(() => null);
        if (link !== null) return link;
        await pause(200);
      }
    };
    return { assembler, lost, connect, insist };
  }

  async function check(fake: FakeBluez, assembler: StreamAssembler, sensor: SimulatedSensorOptions, on_the_way = 0) {
    const report = await fake.report(sensor.address);
    assembler.finish();
    const { block } = assembler.block()!;
    const stored = numbersOf(block, sensor.description);
    const numbers = Array.from({ length: stored.at(-1)! - stored[0] + 1 }, (_, i) => stored[0] + i);
    const result = account(block, sensor.description, numbers, (n) => n / report.rate_hz);
    expect(result).toMatchObject({ repeated: 0, unaccounted: 0 });
    expect(result.worst_time_error_s).toBeLessThan(1e-3);
    // What the radio handed over is all there, from the first sample that was ever sent, but for what a break overtook.
    const handed_over = report.delivered_packets * sensor.description.packet.max_samples;
    expect(stored.length).toBeLessThanOrEqual(handed_over);
    expect(stored.length).toBeGreaterThanOrEqual(handed_over - on_the_way * sensor.description.packet.max_samples);
    expect(stored[0]).toBe(report.first_sample);
    return { report, block, result };
  }

  it('finds sensors with name, strength and service', async () => {
    const { source } = await begin();
    const found = new Map<string, SensorFound>();
    await source.startScan((sensor) => found.set(sensor.sensor_id, sensor));
    expect(source.state()).toEqual({ ready: true, problem: null });
    for (let i = 0; i < 100 && found.size < 2; i++) await pause(50);
    const strength = (sensor: SensorFound) => ({ ...sensor, rssi_dbm: Math.round(sensor.rssi_dbm! / 10) * 10 });
    expect([...found.values()].map(strength)).toEqual([
      { sensor_id: SENSORS[0].address, name: 'Bramble 0A', rssi_dbm: -50, service_uuids: [bramble.service_uuid] },
      { sensor_id: SENSORS[1].address, name: 'Teasel 0B', rssi_dbm: -60, service_uuids: [teasel.service_uuid] },
    ]);
  });

  it('writes rate, range and start, reads battery and firmware, and loses nothing over a counter wrap', async () => {
    const { fake, source } = await begin();
    const streams = SENSORS.map((sensor) => stream(source, sensor));
    const links = await Promise.all(streams.map(({ connect }) => connect()));
    expect(links[1].information).toEqual({
      battery_percent: 55,
      device_information: { firmware_revision: '2.1.0' },
      rssi_dbm: expect.closeTo(-61, -1),
      mtu: 247,
    });
    await pause(2500);
    await fake.setBattery(SENSORS[1].address, 9);
    expect(await links[1].readBattery()).toBe(9);
    for (const link of links) await link.close();
    for (const [i, sensor] of SENSORS.entries()) {
      const { report, result } = await check(fake, streams[i].assembler, sensor);
      expect(report.writes.at(-1)).toBe(sensor.description.stop[0].bytes);
      expect(report.writes[0]).toBe(sensor.description.rates[0].writes[0].bytes);
      expect(result.stored).toBeGreaterThan(800);
      expect(streams[i].assembler.counts).toMatchObject({
        lost_samples: 0,
        unreadable_packets: 0,
        duplicate_packets: 0,
      });
      expect(streams[i].lost).toEqual([]);
    }
  });

  it('says which characteristic is missing when the description does not fit', async () => {
    const { source } = await begin();
    await expect(
      source.open(SENSORS[0].address, teasel, defaultSettings(teasel), { packet: () => {}, lost: () => {} }),
    ).rejects.toMatchObject({ code: 'SENSOR_NOT_AS_DESCRIBED' });
    await expect(
      source.open('C0:00:5E:00:53:FF', teasel, defaultSettings(teasel), { packet: () => {}, lost: () => {} }),
    ).rejects.toMatchObject({ code: 'SENSOR_UNREACHABLE' });
  });

  it('tells each drop once and never repeats a value after connecting again; match rules stay flat', async () => {
    const { fake, source } = await begin();
    const { assembler, lost, insist } = stream(source);
    const rules: number[] = [];
    for (let drop = 0; drop < 5; drop++) {
      if (drop === 3) await fake.failNextConnects(SENSORS[0].address, 2);
      await insist();
      await pause(250);
      // The other library has two rules in all, and none a sensor.
      rules.push(source instanceof NodeBleSource ? source.matchRules() : 2);
      await fake.drop(SENSORS[0].address);
      await pause(80);
    }
    expect(lost).toHaveLength(5);
    expect(new Set(rules).size).toBe(1);
    expect(assembler.counts.duplicate_packets).toBe(0);
    const { block } = await check(fake, assembler, SENSORS[0]);
    expect(block.gaps).toHaveLength(4);
  });

  it.each([
    {
      what: 'the Bluetooth service restarting',
      breaks: (fake: FakeBluez) => fake.stopBluetoothd(),
      mend: (fake: FakeBluez) => fake.startBluetoothd(),
      words: /service/,
    },
    {
      what: 'the adapter vanishing and coming back',
      breaks: (fake: FakeBluez) => fake.setAdapterPresent(false),
      mend: (fake: FakeBluez) => fake.setAdapterPresent(true),
      words: /adapter/,
    },
    {
      what: 'the message bus dying',
      breaks: (fake: FakeBluez) => fake.killBus(),
      mend: async (fake: FakeBluez) => {
        await fake.startBus();
        await fake.startBluetoothd();
      },
      words: /message bus/,
    },
  ])('survives $what, and says in plain words what happened', async ({ breaks, mend, words }) => {
    const { fake, source } = await begin();
    const { assembler, lost, insist } = stream(source);
    await insist();
    await until('packets', () => assembler.counts.packets > 20);
    await breaks(fake);
    await until('words', () => words.test(radioWords(source.state().problem)));
    await mend(fake);
    const link = await insist();
    const { packets } = assembler.counts;
    await until('packets again', () => assembler.counts.packets > packets + 20);
    await link.close();
    expect(lost).toHaveLength(1);
    expect(source.state().problem).toBeNull();
    const { block } = await check(fake, assembler, SENSORS[0], words.test('message bus') ? 1000 : 5);
    expect(block.gaps).toHaveLength(1);
  });
});
