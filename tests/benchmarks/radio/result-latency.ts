import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { startServer } from '../../../api/server/server.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { CaptureClient } from '../../helpers/capture-client.ts';
import { CHROMIUM_PATH, openBrowser, openPage } from '../../helpers/chromium.ts';
import { FakeBluez } from '../../helpers/fake-bluez/fake-bluez.ts';
import { runningPackets } from '../../helpers/running-packets.ts';

const SIDES = ['left', 'right'] as const;

/**
 * Three athletes, six sensors, several repetitions each: how long from the last toe-off to the result as an event, and to
 * the result on the page of a real browser?
 */
export async function resultLatency(repetitions: number, say: (text: string) => void): Promise<void> {
  const [bramble] = shippedDescriptions();
  const settings = { rate_hz: 500, acc_full_scale: 32, gyr_full_scale: 4000 };
  const runs = [21, 22, 23].map((seed) =>
    runningPackets(bramble, settings, {
      seed,
      repetitions: Array.from({ length: repetitions }, () => ({ distance_m: 30, effort: 0.9, run_out_s: 0.5 })),
    }),
  );
  const sensors = runs.flatMap((run, athlete) =>
    SIDES.map((side, i) => ({
      address: `C0:00:5E:00:57:${athlete}${i}`,
      name: `Bramble ${athlete} ${side}`,
      description: bramble,
      recorded: run.recorded[side],
      recorded_delay_s: 5,
      athlete,
      side,
    })),
  );
  const fake = await FakeBluez.start(sensors);
  process.env.DBUS_SYSTEM_BUS_ADDRESS = fake.address;
  const data_folder = mkdtempSync(join(tmpdir(), 'cinderlane-latency-'));
  const web_folder = join(data_folder, 'web');
  if (CHROMIUM_PATH) {
    const configFile = fileURLToPath(new URL('../../../web/vite.config.ts', import.meta.url));
    await build({ configFile, logLevel: 'error', build: { outDir: web_folder, emptyOutDir: true } });
  }
  const server = await startServer({ data_folder, port: 0, web_folder });
  const client = new CaptureClient(server.address);
  for (const { address, name, side, athlete } of sensors) {
    const athlete_id = await athleteOf(server.address, athlete);
    await client.send('PUT', `/sensors/${address}`, { name, description_id: bramble.id, side, athlete_id, settings });
  }
  const browser = CHROMIUM_PATH ? await openBrowser() : null;
  const page = browser ? await openPage(browser) : null;
  if (page) {
    await page.goto(`${server.address}/#/live`);
    await page.evaluate(() => {
      const seen = Object.assign(window, { shown: [] as number[] }).shown;
      new MutationObserver(() => {
        const count = document.querySelectorAll('.live-result').length;
        while (seen.length < count) seen.push(Date.now());
      }).observe(document.body, { childList: true, subtree: true });
    });
  }
  await client.send('POST', '/start', {});
  const expected = 3 * repetitions;
  await client
    .until('all results', () => client.of('repetition').length >= expected, 60_000 * repetitions)
    .catch((error) => {
      say(`  only ${client.of('repetition').length} of ${expected}: ${(error as Error).message.slice(0, 200)}`);
    });
  const events = client.of('repetition');
  tell(
    'as an event',
    events.map((event) => event.delay_s),
    say,
  );
  if (page) {
    await page.waitForTimeout(500);
    const shown = await page.evaluate(() => (window as unknown as { shown: number[] }).shown);
    // Events come in the order in which the page shows them.
    const sent = client.seen.filter((one) => one.event === 'repetition');
    const now_ms = performance.now();
    const delays = sent.slice(0, shown.length).map((one, i) => {
      const received_ms = Date.now() - (now_ms - one.at_ms);
      return events[i].delay_s + (shown[i] - received_ms) / 1000;
    });
    tell('on the page', delays, say);
  }
  await client.send('POST', '/stop');
  await client.close();
  await browser?.close();
  await server.close();
  await fake.close();
  rmSync(data_folder, { recursive: true, force: true });
}

const athletes = new Map<number, Promise<number>>();

function athleteOf(address: string, number: number): Promise<number> {
  const made =
    athletes.get(number) ??
    fetch(`${address}/api/athletes`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ name: `Runner ${number + 1}` }),
    }).then(async (answer) => ((await answer.json()) as { athlete_id: number }).athlete_id);
  athletes.set(number, made);
  return made;
}

function tell(what: string, delays: number[], say: (text: string) => void): void {
  const sorted = delays.slice().sort((a, b) => a - b);
  const at = (share: number) =>
    (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN).toFixed(2);
  say(`  ${what}: ${sorted.length} repetitions, p50 ${at(0.5)} s, p95 ${at(0.95)} s, longest ${at(1)} s`);
}
