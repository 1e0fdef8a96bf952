import { spawnSync } from 'node:child_process';
import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { shippedDescriptions } from '../../ingest/ble/descriptions/index.ts';
import { CHROMIUM_MISSING, CHROMIUM_PATH, CHROMIUM_FLAGS, openPage, PHONE } from '../helpers/chromium.ts';
import { FakeBluez } from '../helpers/fake-bluez/fake-bluez.ts';
import { runningPackets } from '../helpers/running-packets.ts';
import { startViewServer, type ViewServer } from '../helpers/view-server.ts';

const has_bus = spawnSync('dbus-daemon', ['--version']).status === 0;
const PICTURES = process.env.CINDERLANE_PICTURES;
const [bramble] = shippedDescriptions();
const settings = { rate_hz: 1000, acc_full_scale: 32, gyr_full_scale: 4000 };
const SIDES = ['left', 'right'] as const;
/** Two athletes run together, and one phone holds the sensors of both. */
const PAIRS = [
  { athlete: 'Wren Abara', seed: 12, names: { left: 'Bramble L', right: 'Bramble R' }, last: 'A' },
  { athlete: 'Ivo Tarn', seed: 13, names: { left: 'Bramble 2L', right: 'Bramble 2R' }, last: 'C' },
];
const addressOf = (pair: (typeof PAIRS)[number], side: (typeof SIDES)[number]) =>
  `C0:00:5E:00:53:2${side === 'left' ? pair.last : String.fromCharCode(pair.last.charCodeAt(0) + 1)}`;

describe.skipIf(!CHROMIUM_PATH || !has_bus)(
  CHROMIUM_PATH ? 'sensors held by a real Chromium over Web Bluetooth' : CHROMIUM_MISSING,
  () => {
    let fake: FakeBluez;
    let server: ViewServer;
    let browser: Browser;
    let page: Page;
    const runs = PAIRS.map(({ seed }) => runningPackets(bramble, settings, { seed, stand_before_s: 4 }));

    beforeAll(async () => {
      fake = await FakeBluez.start(
        PAIRS.flatMap((pair, i) =>
          SIDES.map((side) => ({
            address: addressOf(pair, side),
            name: pair.names[side],
            description: bramble,
            recorded: runs[i].recorded[side],
            // Choosing and placing four sensors by hand takes longer than connecting them.
            recorded_delay_s: 26,
          })),
        ),
      );
      server = await startViewServer();
      await fetch(`${server.address}/api/athletes`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ name: PAIRS[1].athlete }),
      });
      browser = await chromium.launch({
        executablePath: CHROMIUM_PATH!,
        args: [...CHROMIUM_FLAGS, '--enable-features=WebBluetooth'],
        env: { ...(process.env as Record<string, string>), DBUS_SYSTEM_BUS_ADDRESS: fake.address },
      });
      page = await openPage(browser);
      // Packets have the right of way on a busy machine.
      page.setDefaultTimeout(60_000);
      await page.setViewportSize(PHONE);
    });
    afterAll(async () => {
      await browser?.close();
      await server?.close();
      await fake?.close();
    });

    /** Answers the browser's chooser as a user does: takes the sensor with this name. */
    async function choose(name: string): Promise<void> {
      const devtools = await page.context().newCDPSession(page);
      const chosen = new Promise<void>((resolve, reject) => {
        let answered = false;
        devtools.on('DeviceAccess.deviceRequestPrompted', ({ id, devices }) => {
          const device = devices.find((candidate) => candidate.name === name);
          if (device === undefined || answered) return;
          answered = true;
          devtools.send('DeviceAccess.selectPrompt', { id, deviceId: device.id }).then(() => resolve(), reject);
        });
      });
      await devtools.send('DeviceAccess.enable');
      await page.getByRole('button', { name: 'Connect a sensor to this browser' }).click();
      await chosen;
      await devtools.detach();
    }

    test('two pairs are chosen on one phone, placed, recorded through the server, and both repetitions are measured and stored', async () => {
      await page.goto(`${server.address}/#/live?session_id=${server.session_id}`);
      for (const { athlete, names } of PAIRS) {
        for (const side of SIDES) {
          await choose(names[side]);
          const card = page.getByRole('region', { name: `Sensor ${names[side]}`, exact: true });
          await card.waitFor({ timeout: 120_000 });
          await card.getByRole('combobox', { name: 'Acceleration up to' }).selectOption('32');
          await card.getByRole('combobox', { name: 'Rotation up to' }).selectOption('4000');
          await card.getByRole('radio', { name: side }).check();
          await card.getByRole('combobox', { name: 'Athlete' }).selectOption({ label: athlete });
        }
      }
      for (const pair of PAIRS) {
        for (const side of SIDES) {
          // The page's choice of ranges has reached the sensor itself.
          const { writes } = await fake.report(addressOf(pair, side));
          expect(writes).toContain('11 20');
          expect(writes.at(-1)).toBe('01');
        }
      }
      await page.getByRole('button', { name: 'Connect and record' }).click();
      await page.getByText('4 of 4 sensors live').waitFor({ timeout: 60_000 });
      const results = page.getByRole('region', { name: 'Result' });
      for (const { athlete } of PAIRS) {
        await results
          .filter({ hasText: athlete })
          .getByRole('link', { name: 'Open the repetition' })
          .waitFor({ timeout: 120_000 });
      }
      if (PICTURES) await page.screenshot({ path: `${PICTURES}/web-bluetooth.png`, fullPage: true });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
      for (const [i, { athlete }] of PAIRS.entries()) {
        const link = results.filter({ hasText: athlete }).getByRole('link', { name: 'Open the repetition' });
        const href = await link.getAttribute('href');
        const repetition = await (await fetch(`${server.address}/api/repetitions/${href!.split('/').at(-1)}`)).json();
        expect(repetition.session_id).toBe(server.session_id);
        expect(repetition.recordings.map((recording: { side: string }) => recording.side)).toEqual(['left', 'right']);
        expect(repetition.analysis.result.contacts.length).toBeGreaterThanOrEqual(runs[i].contacts);
      }
      const state = await (await fetch(`${server.address}/api/capture`)).json();
      expect(state.sensors).toHaveLength(4);
      for (const sensor of state.sensors) {
        expect(sensor).toMatchObject({ lost_samples: 0, unreadable_packets: 0, battery_percent: 90 });
      }
      await page.getByRole('button', { name: 'End recording' }).click();
      await page.getByRole('button', { name: 'Look for sensors' }).waitFor();
    });
  },
);
