/** A board described from nothing in a real browser: looked into, copied, mended, tried, kept, recorded, dropped, measured. */
import { spawnSync } from 'node:child_process';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { shippedDescriptions } from '../../ingest/ble/descriptions/index.ts';
import type { StreamDescription } from '../../shared/schemas/stream-description.ts';
import { CHROMIUM_MISSING, CHROMIUM_PATH, openBrowser, openPage, PHONE } from '../helpers/chromium.ts';
import { FakeBluez } from '../helpers/fake-bluez/fake-bluez.ts';
import { startViewServer, type ViewServer } from '../helpers/view-server.ts';

const has_bus = spawnSync('dbus-daemon', ['--version']).status === 0;
const PICTURES = process.env.CINDERLANE_PICTURES;
const ADDRESS = 'C0:00:5E:00:53:4A';
const [bramble] = shippedDescriptions();
/** Speaks as one of the shipped, under a name and UUIDs that nobody has described. */
const board: StreamDescription = JSON.parse(
  JSON.stringify({ ...bramble, id: 'xb-board', name: 'XB board', advertised_name_prefix: 'XB' }).replaceAll(
    '8f2a1c',
    '77aa1c',
  ),
);

describe.skipIf(!CHROMIUM_PATH || !has_bus)(
  CHROMIUM_PATH ? 'the page to describe a sensor, on a private bus' : CHROMIUM_MISSING,
  () => {
    let fake: FakeBluez;
    let server: ViewServer;
    let browser: Browser;
    let page: Page;
    beforeAll(async () => {
      fake = await FakeBluez.start([{ address: ADDRESS, name: 'XB one', description: board }]);
      process.env.DBUS_SYSTEM_BUS_ADDRESS = fake.address;
      [server, browser] = await Promise.all([startViewServer(), openBrowser()]);
      page = await openPage(browser);
      page.setDefaultTimeout(25_000);
      await page.setViewportSize(PHONE);
    });
    afterAll(async () => {
      await browser?.close();
      await server?.close();
      await fake?.close();
    });
    const picture = async (name: string) => {
      if (PICTURES) await page.screenshot({ path: `${PICTURES}/${name}.png`, fullPage: true });
    };

    test('takes a sensor from unknown to recorded and measured, without a file touched by hand', async () => {
      await page.goto(`${server.address}/#/describe`);
      await page.getByRole('button', { name: 'Search' }).click();
      await page.getByText(/XB one .* no description fits/).waitFor();
      await page.getByRole('button', { name: 'Look inside XB one' }).click();
      await page.getByText(board.service_uuid).waitFor();
      await page.getByLabel('Begin with a copy of').selectOption('bramble');
      const text = page.getByLabel('Description as JSON');
      await text.fill(JSON.stringify({ ...board, rates: [], packet: { ...board.packet, byte_order: 'middle' } }));
      await page.getByText('needs at least 1 entry').waitFor();
      await page.getByText(/must be one of little, big \(found: "middle"\)/).waitFor();
      await picture('describe-faults-phone');
      await text.fill(JSON.stringify(board, null, 2));
      await page.getByText('The description has no faults.').waitFor();
      await page.getByRole('button', { name: 'Try it on the sensor' }).click();
      await page
        .getByLabel('What the description makes of it')
        .getByText(/of 1000 Hz/)
        .waitFor();
      await page.getByText(/bytes: ([0-9a-f]{2} ){20}/).waitFor();
      await page.getByText(/100\d\.\d Hz of 1000 Hz|99\d\.\d Hz of 1000 Hz/).waitFor();
      await picture('describe-trial-phone');
      await page.getByRole('button', { name: 'Keep it' }).click();
      await page.getByText('XB board is kept.').waitFor();

      const call = async (method: string, path: string, body?: unknown) => {
        const answer = await fetch(`${server.address}/api${path}`, {
          method,
          headers: body === undefined ? {} : { 'content-type': 'application/json' },
          body: body === undefined ? undefined : JSON.stringify(body),
        });
        return (await answer.json()) as Record<string, never>;
      };
      await call('PUT', `/capture/sensors/${encodeURIComponent(ADDRESS)}`, {
        name: 'XB one',
        side: 'left',
        description_id: 'xb-board',
      });
      await page.goto(`${server.address}/#/live`);
      await page.getByRole('button', { name: 'Connect and record' }).click();
      await page.getByText('1 of 1 sensor live').waitFor();
      await fake.drop(ADDRESS);
      await page
        .getByText(/is back after/)
        .first()
        .waitFor();
      const samples = async () => {
        const state = (await call('GET', '/capture')) as { sensors?: { samples: number }[] };
        return state.sensors?.[0]?.samples ?? 0;
      };
      await expect.poll(samples, { timeout: 25_000 }).toBeGreaterThan(1500);
      await page.getByRole('button', { name: 'End recording' }).click();
      await page.getByText('Recording ended.').first().waitFor();
      await page.goto(`${server.address}/#/captures`);
      await page.getByText(/XB one: left, shoe/).waitFor();
      await picture('captures-phone');
      const href = await page.getByRole('link', { name: 'Samples as CSV' }).getAttribute('href');
      const csv = await (await fetch(`${server.address}${href}`)).text();
      expect(csv.split('\n').length).toBeGreaterThan(1000);
      await page.getByRole('button', { name: 'Analyse again' }).click();
      await page.getByText('Every repetition in it is stored already.').waitFor();
    }, 120_000);
  },
);
