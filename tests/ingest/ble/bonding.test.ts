import { spawnSync } from 'node:child_process';
import { afterEach, describe, expect, it } from 'vitest';
import { readStreamDescription } from '../../../ingest/ble/description/read-stream-description.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { machineRadio, RADIO_LIBRARIES } from '../../../ingest/ble/sources/machine/machine-radio.ts';
import { told } from '../../helpers/told.ts';
import { FakeBluez } from '../../helpers/fake-bluez/fake-bluez.ts';

const has_bus = spawnSync('dbus-daemon', ['--version']).status === 0;
const ADDRESS = 'C0:00:5E:00:53:0E';
const CODE = '271828';
const [bramble] = shippedDescriptions();

/** The sensor's description, as bonding goes with it. */
function bonded(connection: { bonding: 'with_code' | 'without_code'; code?: string }) {
  return readStreamDescription('bonded', JSON.stringify({ ...bramble, id: 'bonded', connection }));
}

describe.skipIf(!has_bus).each(RADIO_LIBRARIES)(
  'bonding with a code through %s, on a D-Bus with a fake org.bluez',
  (library) => {
    const open: { close(): Promise<void> }[] = [];
    afterEach(async () => {
      for (const thing of open.splice(0).reverse()) await thing.close();
    });

    /** Opens the sensor, and resolves with its first packet. */
    async function connect(description: ReturnType<typeof bonded>, code: string | null) {
      const fake = await FakeBluez.start([{ address: ADDRESS, name: 'Bramble 0E', description, bond_code: CODE }]);
      open.push(fake);
      process.env.DBUS_SYSTEM_BUS_ADDRESS = fake.address;
      const source = machineRadio(library, 10);
      open.push(source);
      let came: (bytes: Uint8Array) => void = () => {};
      const first = new Promise<Uint8Array>((resolve) => {
        came = resolve;
      });
      const handlers = { packet: (bytes: Uint8Array) => came(bytes), lost: () => {} };
      await source.open(ADDRESS, description, defaultSettings(description), handlers, {
        code,
        record_on_sensor: false,
      });
      return first;
    }

    it('gives the code of the description, or the one given for this sensor, which goes first', async () => {
      expect((await connect(bonded({ bonding: 'with_code', code: CODE }), null)).length).toBeGreaterThan(0);
      for (const thing of open.splice(0).reverse()) await thing.close();
      expect((await connect(bonded({ bonding: 'with_code', code: '000000' }), CODE)).length).toBeGreaterThan(0);
    });

    it('a wrong code, and none, are refused in words that say what to do', async () => {
      const wrong = await connect(bonded({ bonding: 'with_code', code: '141421' }), null).catch((error) => error);
      expect(told(wrong.fault)).toMatchObject({
        code: 'SENSOR_BOND_REFUSED',
        message: expect.stringContaining('Authentication Failed'),
        hint: expect.stringContaining('Check its code of six digits'),
      });
      for (const thing of open.splice(0).reverse()) await thing.close();
      const none = await connect(bonded({ bonding: 'without_code' }), null).catch((error) => error);
      expect(told(none.fault)).toMatchObject({
        code: 'SENSOR_BOND_REFUSED',
        hint: expect.stringContaining('give its code where it asks for one'),
      });
    });
  },
);
