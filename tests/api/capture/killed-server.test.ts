import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { createPacketDecoder } from '../../../ingest/ble/packets/decode-packet.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { readPacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { CaptureClient } from '../../helpers/capture-client.ts';
import { FakeBluez, pause } from '../../helpers/fake-bluez/fake-bluez.ts';
import { runningPackets } from '../../helpers/running-packets.ts';
import { ServerProcess } from '../../helpers/server-process.ts';

const has_bus = spawnSync('dbus-daemon', ['--version']).status === 0;
const [bramble] = shippedDescriptions();
const settings = { rate_hz: 1000, acc_full_scale: 32, gyr_full_scale: 4000 };
const SIDES = ['left', 'right'] as const;
const ADDRESSES = { left: 'C0:00:5E:00:53:1A', right: 'C0:00:5E:00:53:1B' };

/** Counters of the packets in a capture's log, in the order they were written. */
function countersIn(file: string): number[] {
  const log = readPacketLog(file, readFileSync(file));
  expect(log.damaged).toEqual([]);
  const decoder = createPacketDecoder(log.header.description, log.header.settings);
  return log.records.flatMap((record) => (record.kind === 'packet' ? [decoder.decode(record.bytes).counter!] : []));
}

describe.skipIf(!has_bus)('a server killed with SIGKILL in mid-repetition', () => {
  const open: { close(): Promise<void> }[] = [];
  const data_folder = mkdtempSync(join(tmpdir(), 'cinderlane-kill-'));
  afterEach(async () => {
    for (const thing of open.splice(0).reverse()) await thing.close();
    rmSync(data_folder, { recursive: true, force: true });
  });

  it('has everything up to then, goes on with the same recording, and stores the repetition with its gap', async () => {
    const run = runningPackets(bramble, settings, { seed: 12, stand_after_s: 25 });
    const fake = await FakeBluez.start(
      SIDES.map((side) => ({
        address: ADDRESSES[side],
        name: `Bramble ${side}`,
        description: bramble,
        recorded: run.recorded[side],
      })),
    );
    open.push(fake);
    const env = { DBUS_SYSTEM_BUS_ADDRESS: fake.address };
    const first = await ServerProcess.start(data_folder, env);
    open.push(first);
    const post = async (path: string, body: unknown) => {
      const headers = { 'content-type': 'application/json' };
      const answer = await fetch(`${first.address}/api${path}`, {
        method: 'POST',
        headers,
        body: JSON.stringify(body),
      });
      return (await answer.json()) as Record<string, number>;
    };
    const { athlete_id } = await post('/athletes', { name: 'Wren Abara' });
    const { session_id } = await post('/sessions', { session_date: '2026-11-25' });
    const before = new CaptureClient(first.address);
    for (const side of SIDES) {
      const place = { name: side, description_id: 'bramble', side, mounting: 'foot', athlete_id, settings };
      expect((await before.send('PUT', `/sensors/${ADDRESSES[side]}`, place)).status).toBe(200);
    }
    expect((await before.send('POST', '/start', { session_id })).status).toBe(200);
    // In the middle of the run: contacts have been shown.
    await before.until('contacts', () => (before.of('contacts').at(-1)?.contacts.length ?? 0) > 10);
    const told = before.state.sensors.map((sensor) => sensor.samples);
    await first.kill();
    await before.close();

    const [capture_id] = readdirSync(join(data_folder, 'captures'));
    const logs = SIDES.map((side) =>
      join(data_folder, 'captures', capture_id, `${ADDRESSES[side].replaceAll(':', '-')}.packets`),
    );
    const kept = logs.map((file) => countersIn(file).length);
    // Every sample that the server has ever told of is on disk (20 a packet).
    for (const [i, packets] of kept.entries()) expect(20 * packets).toBeGreaterThanOrEqual(told[i]);
    expect(Math.min(...kept)).toBeGreaterThan(100);

    const second = await ServerProcess.start(data_folder, env);
    open.push(second);
    const after = new CaptureClient(second.address);
    open.push(after);
    await after.until('the capture goes on', () => after.state?.capture?.capture_id === capture_id);
    expect(after.state.messages.map((message) => message.text).join(' ')).toMatch(
      /The program stopped at .* Everything up to then is kept.*the recording goes on/,
    );
    // Only what was on disk can give these: they were run before the kill.
    await after.until('the result', () => after.of('repetition').length > 0);
    expect(after.of('repetition')[0]).toMatchObject({ athlete_id, session_id });
    expect(after.of('repetition')[0].contacts.length).toBeGreaterThan(8);
    await after.until('both sensors again', () => after.state.sensors.every((sensor) => sensor.state === 'live'));
    await pause(300);
    await after.send('POST', '/stop');
    for (const [i] of SIDES.entries()) {
      const counters = countersIn(logs[i]);
      const jumps = counters.slice(1).filter((counter, k) => counter !== counters[k] + 1);
      // One gap, the time without a server; no packet twice, none out of order, none from before the kill gone.
      expect(jumps).toHaveLength(1);
      expect(new Set(counters).size).toBe(counters.length);
      expect(counters.slice(0, kept[i])).toEqual(Array.from({ length: kept[i] }, (_, k) => counters[0] + k));
    }
  });
});
