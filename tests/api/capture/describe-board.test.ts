import { text } from 'node:stream/consumers';
import { refusalOf } from '../../helpers/told.ts';
/** A board that nobody has described: looked into, described, tried, kept, recorded over a break, and taken out again. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CaptureService } from '../../../api/capture/capture-service.ts';
import { createAthlete } from '../../../api/store/athletes.ts';
import { Store } from '../../../api/store/store.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { NodeBleSource } from '../../../ingest/ble/sources/node-ble/node-ble-source.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { FakeBluez, pause } from '../../helpers/fake-bluez/fake-bluez.ts';

const sorrel = shippedDescriptions().find(({ id }) => id === 'sorrel')!;
const ADDRESS = 'C0:00:5E:00:53:3A';

/** The same way of speaking under UUIDs and a name that no shipped description knows. */
const board: StreamDescription = JSON.parse(
  JSON.stringify({
    ...sorrel,
    id: 'board',
    name: 'Board',
    advertised_name_prefix: 'XB-',
    connection: { least_mtu: 103 },
  })
    .replaceAll('5d0e01', '77aa01')
    .replaceAll('5d0e02', '77aa02'),
);

describe('a board that is described from nothing', () => {
  it('is explored, tried, kept, recorded over a break and exported, on a real bus', async () => {
    const fake = await FakeBluez.start([{ address: ADDRESS, name: 'XB-1', description: board }]);
    process.env.DBUS_SYSTEM_BUS_ADDRESS = fake.address;
    const folder = mkdtempSync(join(tmpdir(), 'describe-board-'));
    const store = Store.open(join(folder, 'cinderlane.sqlite'));
    const service = new CaptureService({ store, folder, radio: new NodeBleSource(4) });
    const until = async (what: string, condition: () => boolean) => {
      for (let waited = 0; !condition(); waited += 50) {
        if (waited > 20_000) throw new Error(`${what}: ${JSON.stringify(service.state())}`);
        await pause(50);
      }
    };
    try {
      await service.search(true);
      await until('found', () => service.state().found.length === 1);
      expect(service.state().found[0]).toMatchObject({ name: 'XB-1', description_id: null });
      const exploration = await service.explore(ADDRESS);
      expect(exploration.state().services.map((one) => one.uuid)).toContain(board.service_uuid);
      await expect(exploration.try('{"id": 7}')).rejects.toMatchObject({ code: 'STREAM_DESCRIPTION_INVALID' });
      await exploration.try(JSON.stringify(board));
      await until('packets', () => (exploration.state().trial?.samples ?? 0) > 2000);
      const { trial, packets, mtu } = exploration.state();
      expect(trial).toMatchObject({ unreadable_packets: 0, other_packets: 0, lost_samples: 0, battery_percent: 90 });
      expect(trial!.measured_rate_hz! / 800).toBeCloseTo(1, 1);
      expect(packets.length).toBeGreaterThan(5);
      expect(mtu).toBe(247);
      service.descriptions.add(JSON.stringify(board));
      await service.endExploration();

      const { athlete_id } = createAthlete(store, { name: 'Rowan Teal' });
      await service.place(ADDRESS, { name: 'XB-1', description_id: 'board', side: 'left', athlete_id });
      service.start();
      await until('live', () => (service.state().sensors[0]?.samples ?? 0) > 1500);
      const { capture_id } = service.state().capture!;
      await fake.drop(ADDRESS);
      await until(
        'back',
        () => service.state().sensors[0].reconnects === 1 && service.state().sensors[0].state === 'live',
      );
      await pause(1500);
      await service.stop();
      const { logs } = await service.archive.open(capture_id);
      expect(logs).toMatchObject([
        { sensor_id: ADDRESS, unreadable_packets: 0, out_of_sequence_packets: 0, damaged_bytes: 0 },
      ]);
      expect(logs[0].gaps).toBeGreaterThanOrEqual(1);
      const csv = (await text(await service.archive.csv(capture_id, ADDRESS))).split('\n');
      expect(csv[0]).toBe('time_s,acc_x_mps2,acc_y_mps2,acc_z_mps2,gyr_x_radps,gyr_y_radps,gyr_z_radps');
      expect(csv.length).toBeGreaterThan(1500);
      expect(service.archive.list().items).toMatchObject([{ capture_id, state: 'ended', waiting_repetitions: 0 }]);
      service.archive.deleteLog(capture_id, ADDRESS);
      expect(service.archive.list().items).toEqual([]);
      service.descriptions.remove('board');
      expect(refusalOf(() => service.descriptions.get('board'))).toMatch(/no stream description/);
      expect(refusalOf(() => service.descriptions.remove('bramble'))).toMatch(/comes with the program/);
    } finally {
      await service.close();
      store.close();
      await fake.close();
      rmSync(folder, { recursive: true, force: true });
    }
  }, 90_000);
});
