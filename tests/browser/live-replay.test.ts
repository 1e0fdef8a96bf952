import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CHROMIUM_MISSING, CHROMIUM_PATH, openBrowser, openPage, PHONE, complaintsOf } from '../helpers/chromium.ts';
import { startViewServer, type ViewServer } from '../helpers/view-server.ts';

/** Where screenshots go when asked for, to be looked at. */
const PICTURES = process.env.CINDERLANE_PICTURES;

describe.skipIf(!CHROMIUM_PATH)(CHROMIUM_PATH ? 'the live page, by replay' : CHROMIUM_MISSING, () => {
  let server: ViewServer;
  let browser: Browser;
  let page: Page;
  let complaints: string[] = [];

  beforeAll(async () => {
    [server, browser] = await Promise.all([startViewServer(), openBrowser()]);
    page = await openPage(browser);
    // Packets have the right of way on a busy machine.
    page.setDefaultTimeout(60_000);
    complaints = complaintsOf(page);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  const picture = async (name: string) => {
    if (PICTURES) await page.screenshot({ path: `${PICTURES}/${name}.png`, fullPage: true });
  };

  test('a newcomer without sensors replays a session and sees contacts appear and the result by itself', async () => {
    await page.setViewportSize(PHONE);
    await page.goto(`${server.address}/#/live`);
    await page.getByRole('heading', { name: 'No sensors at hand? Replay a session' }).waitFor();
    await picture('live-setup-phone');
    await page.getByRole('button', { name: 'Replay this session' }).click();
    await page.getByText('2 of 2 sensors live').waitFor();
    const running = page.getByRole('region', { name: 'Running now' });
    await running.waitFor({ timeout: 60_000 });
    await running.locator('.marker').nth(7).waitFor({ timeout: 60_000 });
    await picture('live-running-phone');
    const result = page.getByRole('region', { name: 'Result' }).first();
    await result.waitFor({ timeout: 60_000 });
    expect(await result.textContent()).toMatch(/Wren Abara.*\d+ contacts/);
    expect(await result.locator('.live-figures dd').first().textContent()).toMatch(/^\d+ ms$/);
    await picture('live-result-phone');
    // The result of the replay is the stored one again: same number of contacts, same mean contact time.
    const stored = await (await fetch(`${server.address}/api/repetitions/${server.repetition_ids[0]}`)).json();
    const shown = Number(/(\d+) contacts/.exec((await result.textContent())!)![1]);
    expect(shown).toBe(stored.analysis.result.contacts.length);
    await page.getByRole('button', { name: 'End replay' }).click();
    await page.getByRole('button', { name: 'Look for sensors' }).waitFor();
    expect(complaints).toEqual([]);
  });

  test('nothing is wider than a phone, and every button is large enough for a cold finger', async () => {
    const widths = await page.evaluate(() => [document.documentElement.scrollWidth, window.innerWidth]);
    expect(widths[0]).toBeLessThanOrEqual(widths[1]);
    const heights = await page
      .locator('main button')
      .evaluateAll((buttons) => buttons.map((button) => button.getBoundingClientRect().height));
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(48);
  });
});
