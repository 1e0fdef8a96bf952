import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { NodeBleSource } from '../../../ingest/ble/sources/node-ble/node-ble-source.ts';
import { FakeBluez } from '../../helpers/fake-bluez/fake-bluez.ts';

/** Connects and breaks as fast as it goes, and tells whether rules, listeners or memory grow. */
export async function connectionsAtSpeed(rounds: number, say: (text: string) => void): Promise<void> {
  const [bramble] = shippedDescriptions();
  const address = 'C0:00:5E:00:55:01';
  const fake = await FakeBluez.start([{ address, name: 'Bramble', description: bramble }]);
  process.env.DBUS_SYSTEM_BUS_ADDRESS = fake.address;
  const source = new NodeBleSource();
  const marks: string[] = [];
  let [lost, packets] = [0, 0];
  for (let round = 1; round <= rounds; round++) {
    await new Promise<void>((resolve, reject) => {
      let dropped = false;
      source
        .open(address, bramble, defaultSettings(bramble), {
          packet: () => {
            packets++;
            if (!dropped) void fake.drop(address);
            dropped = true;
          },
          lost: () => {
            lost++;
            resolve();
          },
        })
        .catch(reject);
    });
    if (round % Math.max(1, Math.floor(rounds / 5)) === 0) {
      (globalThis as { gc?: () => void }).gc?.();
      const heap_mb = process.memoryUsage().heapUsed / 1e6;
      marks.push(
        `${round}: ${source.matchRules()} rules, ${source.busListeners()} listeners, ${heap_mb.toFixed(1)} MB`,
      );
    }
  }
  say(`  ${rounds} connections, ${lost} breaks told, ${packets} packets`);
  for (const mark of marks) say(`  after ${mark}`);
  await source.close();
  await fake.close();
}
