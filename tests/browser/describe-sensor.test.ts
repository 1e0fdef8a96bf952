/** A board described from nothing in a real browser: looked into, copied, mended, tried, kept, recorded, dropped, fetched from its memory, measured. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readRecording } from '../../api/store/read-samples.ts';
import { shippedDescriptions } from '../../ingest/ble/descriptions/index.ts';
import { defaultSettings } from '../../ingest/ble/packets/decode-packet.ts';
import type { StreamDescription } from '../../shared/schemas/stream-description.ts';
import { CHROMIUM_MISSING, CHROMIUM_PATH, openBrowser, openPage, PHONE } from '../helpers/chromium.ts';
import { compileCore, inCounts } from '../helpers/reference-core.ts';
import { runningPackets } from '../helpers/running-packets.ts';
import { FakeBluez } from '../helpers/fake-bluez/fake-bluez.ts';
import { startViewServer, type ViewServer } from '../helpers/view-server.ts';

const has_bus = spawnSync('dbus-daemon', ['--version']).status === 0;
const PICTURES = process.env.CINDERLANE_PICTURES;
const ADDRESS = 'C0:00:5E:00:53:4A';
const reference = shippedDescriptions().find(({ id }) => id === 'reference-sensor')!;
/** The reference sensor's program, under a name and UUIDs that nobody has described. */
const board: StreamDescription = JSON.parse(
  JSON.stringify({ ...reference, id: 'xb-board', name: 'XB board', advertised_name_prefix: 'XB' }).replaceAll(
    'c1d3',
    '77aa',
  ),
);
const settings = defaultSettings(board);
/** Someone stands, runs 60 m, and stands. */
const run = runningPackets(board, settings, {
  seed: 31,
  repetitions: [{ distance_m: 60, effort: 0.95, run_out_s: 1 }],
  stand_before_s: 4,
  stand_after_s: 6,
});
const folder = mkdtempSync(join(tmpdir(), 'described-board-'));
const binary = join(folder, 'core');

describe.skipIf(!CHROMIUM_PATH || !has_bus)(
  CHROMIUM_PATH ? 'the page to describe a sensor, on a private bus' : CHROMIUM_MISSING,
  () => {
    let fake: FakeBluez;
    let server: ViewServer;
    let browser: Browser;
    let page: Page;
    beforeAll(async () => {
      expect(compileCore(binary)).toMatchObject({ status: 0, stderr: '' });
      const core = { binary, samples: inCounts(board, run.blocks.left), stands: true };
      fake = await FakeBluez.start([{ address: ADDRESS, name: 'XB one', description: board, core }]);
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
      rmSync(folder, { recursive: true, force: true });
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
      await page.getByLabel('Begin with a copy of').selectOption('reference-sensor');
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
        .getByText(/of 800 Hz/)
        .waitFor();
      await page.getByText(/bytes: ([0-9a-f]{2} ){20}/).waitFor();
      await page.getByText(/(80\d|79\d)\.\d Hz of 800 Hz/).waitFor();
      await picture('describe-trial-phone');
      await page.getByRole('button', { name: 'Keep it' }).click();
      await page.getByText('XB board is kept.').waitFor();

      // Paired on the page: nothing but the page is used.
      await page.goto(`${server.address}/#/live?session_id=${server.session_id}`);
      await page.getByRole('button', { name: 'Look for sensors' }).click();
      await page.getByRole('listitem').filter({ hasText: 'XB one' }).getByRole('button', { name: 'Add' }).click();
      const card = page.getByRole('region', { name: 'Sensor XB one', exact: true });
      await card.getByRole('radio', { name: 'left' }).check();
      await card.getByRole('combobox', { name: 'Athlete' }).selectOption({ label: 'Wren Abara' });
      await card.getByRole('checkbox', { name: 'Record into its own memory as well' }).check();
      await page.getByRole('button', { name: 'Connect and record' }).click();
      await page.getByText('1 of 1 sensor live').waitFor();
      // In the middle of the run the link breaks.
      const sent = async () => {
        const { first_sample, end_sample } = await fake.report(ADDRESS);
        return first_sample === null ? 0 : (end_sample - first_sample) / settings.rate_hz;
      };
      await expect.poll(sent, { timeout: 60_000 }).toBeGreaterThan(6);
      await fake.drop(ADDRESS);
      await page
        .getByText(/is back after/)
        .first()
        .waitFor();
      await expect.poll(sent, { timeout: 120_000 }).toBeGreaterThan(run.blocks.left.time_s.length / settings.rate_hz);
      await page.getByRole('button', { name: 'End recording' }).click();
      await page.getByText('Recording ended.').first().waitFor();
      if (!(await card.getByRole('button', { name: 'Fetch what it has recorded' }).isVisible())) {
        await card.getByText('Where it is worn').click();
      }
      await card.getByRole('button', { name: 'Fetch what it has recorded' }).click();
      await card.getByText(/1 recording is kept \(see Captures\)/).waitFor({ timeout: 120_000 });
      await page.goto(`${server.address}/#/captures`);
      await expect.poll(() => page.getByText(/XB one: left, shoe/).count()).toBe(2);
      // Which of the two was sent and which was fetched is told apart.
      await page.getByText('1 sensor, fetched from memory').waitFor();
      await picture('captures-phone');

      // One run, one repetition, without a gap, whatever the radio lost.
      const get = async (path: string) => (await fetch(`${server.address}/api${path}`)).json();
      const { items } = await get(`/repetitions?athlete_id=${server.athlete_id}`);
      const by_radio = items.filter(
        ({ repetition_id }: { repetition_id: number }) => !server.repetition_ids.includes(repetition_id),
      );
      expect(by_radio).toHaveLength(1);
      const { recordings, analysis } = await get(`/repetitions/${by_radio[0].repetition_id}`);
      expect(recordings.map(({ side }: { side: string }) => side)).toEqual(['left']);
      expect(readRecording(server.store, recordings[0].recording_id).samples.gaps).toEqual([]);
      const contacts = analysis.result.contacts as { touchdown_s: number }[];
      expect(contacts.length).toBe(Math.ceil(run.contacts / 2));
      await page.goto(`${server.address}/#/repetitions/${by_radio[0].repetition_id}`);
      await page
        .getByText(/contact time/i)
        .first()
        .waitFor();
      await picture('fetched-repetition-phone');

      // The first capture as it came by radio: its gap is there, and its samples can be taken out.
      await page.goto(`${server.address}/#/captures`);
      const samples = page.getByRole('link', { name: 'Samples as CSV' });
      await expect.poll(() => samples.count()).toBe(2);
      const links = await samples.all();
      const lengths: number[] = [];
      for (const link of links) {
        const csv = await (await fetch(`${server.address}${await link.getAttribute('href')}`)).text();
        lengths.push(csv.trimEnd().split('\n').length - 1);
      }
      expect(Math.max(...lengths)).toBeGreaterThan(Math.min(...lengths));
      await page.getByRole('button', { name: 'Analyse again' }).first().click();
      await page.getByText('Every repetition in it is stored already.').waitFor();
    }, 300_000);
  },
);
