import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { CaptureClient } from '../../helpers/capture-client.ts';
import { FakeBluez, pause } from '../../helpers/fake-bluez/fake-bluez.ts';
import { heldAgainst, type RunResult } from '../../helpers/recorded-run.ts';
import { ServerProcess } from '../../helpers/server-process.ts';

/** Kills the recording server again and again, and starts it again; the same recording goes on each time. */
export async function killedServer(kills: number): Promise<RunResult[]> {
  const data_folder = mkdtempSync(join(tmpdir(), 'cinderlane-kills-'));
  const [bramble] = shippedDescriptions();
  const addresses = ['C0:00:5E:00:56:01', 'C0:00:5E:00:56:02'];
  const fake = await FakeBluez.start(
    addresses.map((address, i) => ({ address, name: `Bramble ${i}`, description: bramble, drift: 50e-6 })),
  );
  const env = { DBUS_SYSTEM_BUS_ADDRESS: fake.address };
  let server = await ServerProcess.start(data_folder, env);
  let client = new CaptureClient(server.address);
  for (const [i, address] of addresses.entries()) {
    const side = i === 0 ? 'left' : 'right';
    await client.send('PUT', `/sensors/${address}`, { name: side, description_id: bramble.id, side });
  }
  await client.send('POST', '/start', {});
  const live = () =>
    client.state?.sensors.length === 2 && client.state.sensors.every((sensor) => sensor.state === 'live');
  for (let kill = 0; kill < kills; kill++) {
    await client.until('both live', live, 40_000);
    await pause(500 + 700 * ((kill * 7) % 4));
    await server.kill();
    await client.close();
    server = await ServerProcess.start(data_folder, env);
    client = new CaptureClient(server.address);
  }
  await client.until('both live', live, 40_000);
  await pause(1500);
  await client.send('POST', '/stop');
  await client.close();
  await server.close();
  const [capture_id] = readdirSync(join(data_folder, 'captures'));
  const results = await Promise.all(
    addresses.map(async (address) => {
      const file = join(data_folder, 'captures', capture_id, `${address.replaceAll(':', '-')}.packets`);
      const report = await fake.report(address);
      const held = heldAgainst(readFileSync(file), bramble, defaultSettings(bramble), report);
      return { ...held, report, reconnects: kills };
    }),
  );
  await fake.close();
  rmSync(data_folder, { recursive: true, force: true });
  return results;
}
