import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { CaptureService } from '../../../api/capture/capture-service.ts';
import { createAthlete } from '../../../api/store/athletes.ts';
import { Store } from '../../../api/store/store.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { RSC_MEASUREMENT_UUID, RUNNING_SPEED_AND_CADENCE_UUID } from '../../../ingest/ble/packets/standard-services.ts';
import { NodeBleSource } from '../../../ingest/ble/sources/node-ble/node-ble-source.ts';
import type { CaptureState } from '../../../shared/schemas/capture.ts';
import { FakeBluez } from '../../helpers/fake-bluez/fake-bluez.ts';
import { inWords } from '../../helpers/told.ts';

const has_bus = spawnSync('dbus-daemon', ['--version']).status === 0;
const ADDRESS = 'C0:00:5E:00:53:7A';
const [bramble] = shippedDescriptions();
/** Only its service and characteristic matter: what it sends is given byte by byte. */
const description = {
  ...bramble,
  service_uuid: RUNNING_SPEED_AND_CADENCE_UUID,
  data_characteristic_uuid: RSC_MEASUREMENT_UUID,
  start: [],
  stop: [],
};

/**
 * Running Speed and Cadence Measurement (Bluetooth SIG, GATT Specification Supplement): flags, speed in 1/256 m/s, cadence a minute,
 * stride length in 1/100 m. 8.0 m/s with strides of 3.84 m are 125 strides a minute.
 */
const MEASUREMENT = '050008' + '7d' + '8001';

describe.skipIf(!has_bus)('a sensor that tells speed and cadence', () => {
  const open: (() => unknown)[] = [];
  afterEach(async () => {
    for (const close of open.splice(0).reverse()) await close();
  });

  it('is found, connected and shown as a check, comes back after a break, and is let go', async () => {
    const recorded = Array.from({ length: 600 }, (_, i) => ({ bytes: MEASUREMENT, due_s: 0.1 * i }));
    const fake = await FakeBluez.start([{ address: ADDRESS, name: 'Pod', description, recorded, unasked: true }]);
    open.push(() => fake.close());
    process.env.DBUS_SYSTEM_BUS_ADDRESS = fake.address;
    const folder = mkdtempSync(join(tmpdir(), 'cinderlane-check-'));
    open.push(() => rmSync(folder, { recursive: true, force: true }));
    const store = Store.open(join(folder, 'cinderlane.sqlite'));
    open.push(() => store.close());
    const service = new CaptureService({ store, folder, radio: new NodeBleSource(10) });
    open.push(() => service.close());
    /** Resolves with the first state told from now on that fits. */
    const told = (what: (state: CaptureState) => boolean) =>
      new Promise<CaptureState>((resolve) => {
        const stop = service.listen((event, value) => {
          if (event !== 'state' || !what(value as CaptureState)) return;
          resolve(value as CaptureState);
          setImmediate(() => stop());
        });
      });

    await service.search(true);
    const { found } = await told((state) => state.found.length === 1);
    expect(found[0]).toMatchObject({ name: 'Pod', tells_speed: true, description_id: null });
    const { athlete_id } = createAthlete(store, { name: 'Wren Abara' });
    await service.addCheck(ADDRESS, athlete_id);
    const live = (state: CaptureState) => state.checks[0]?.state === 'live';
    expect((await told(live)).checks).toEqual([
      {
        sensor_id: ADDRESS,
        name: 'Pod',
        athlete_id,
        athlete_name: 'Wren Abara',
        state: 'live',
        reason: '',
        speed_mps: 8,
        cadence_per_min: 125,
        cadence_counts: 'strides',
        step_rate_hz: 250 / 60,
      },
    ]);
    await fake.drop(ADDRESS);
    const [lost] = (await told((state) => state.checks[0].state === 'connecting')).checks;
    expect(inWords(lost)).toMatchObject({ reason: expect.stringMatching(/link broke/), speed_mps: null });
    await told(live);
    await service.removeCheck(ADDRESS);
    expect(service.state().checks).toEqual([]);
    await expect(service.addCheck(ADDRESS, 999)).rejects.toMatchObject({ code: 'ATHLETE_NOT_FOUND' });
  });
});
