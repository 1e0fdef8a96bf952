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
const NAMES = { left: 'Bramble L', right: 'Bramble R' };
const ADDRESSES = { left: 'C0:00:5E:00:53:2A', right: 'C0:00:5E:00:53:2B' };

describe.skipIf(!CHROMIUM_PATH || !has_bus)(
  CHROMIUM_PATH ? 'sensors held by a real Chromium over Web Bluetooth' : CHROMIUM_MISSING,
  () => {
    let fake: FakeBluez;
    let server: ViewServer;
    let browser: Browser;
    let page: Page;
    const run = runningPackets(bramble, settings, { seed: 12, stand_before_s: 4 });

    beforeAll(async () => {
      fake = await FakeBluez.start(
        SIDES.map((side) => ({
          address: ADDRESSES[side],
          name: NAMES[side],
          description: bramble,
          recorded: run.recorded[side],
          // Choosing and placing two sensors by hand takes longer than connecting them.
          recorded_delay_s: 11,
        })),
      );
      server = await startViewServer();
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

    test('both are chosen, placed, recorded through the server, and the repetition is measured and stored', async () => {
      await page.goto(`${server.address}/#/live?session_id=${server.session_id}`);
      for (const side of SIDES) {
        await choose(NAMES[side]);
        const card = page.getByRole('region', { name: `Sensor ${NAMES[side]}` });
        await card.waitFor({ timeout: 60_000 });
        await card.getByRole('combobox', { name: 'Acceleration up to' }).selectOption('32');
        await card.getByRole('combobox', { name: 'Rotation up to' }).selectOption('4000');
        await card.getByRole('radio', { name: side }).check();
        await card.getByRole('combobox', { name: 'Athlete' }).selectOption({ label: 'Wren Abara' });
      }
      for (const side of SIDES) {
        // The page's choice of ranges has reached the sensor itself.
        const { writes } = await fake.report(ADDRESSES[side]);
        expect(writes).toContain('11 20');
        expect(writes.at(-1)).toBe('01');
      }
      await page.getByRole('button', { name: 'Connect and record' }).click();
      await page.getByText('2 of 2 sensors live').waitFor({ timeout: 60_000 });
      const result = page.getByRole('region', { name: 'Result' });
      await result.waitFor({ timeout: 40_000 });
      if (PICTURES) await page.screenshot({ path: `${PICTURES}/web-bluetooth.png`, fullPage: true });
      expect(await result.textContent()).toMatch(/Wren Abara/);
      const href = await result.getByRole('link', { name: 'Open the repetition' }).getAttribute('href');
      const repetition = await (await fetch(`${server.address}/api/repetitions/${href!.split('/').at(-1)}`)).json();
      expect(repetition.session_id).toBe(server.session_id);
      expect(repetition.recordings.map((recording: { side: string }) => recording.side)).toEqual(['left', 'right']);
      const { contacts } = repetition.analysis.result;
      expect(contacts.length).toBeGreaterThanOrEqual(run.contacts);
      const state = await (await fetch(`${server.address}/api/capture`)).json();
      for (const sensor of state.sensors) {
        expect(sensor).toMatchObject({ lost_samples: 0, unreadable_packets: 0, battery_percent: 90 });
      }
      await page.getByRole('button', { name: 'End recording' }).click();
      await page.getByRole('button', { name: 'Look for sensors' }).waitFor();
    });
  },
);
