/** Every page in a browser that asks for German: no English on it, at the width of a phone and at 200 % zoom; and the choice in the settings. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ROUTES } from '../../web/routes.ts';
import { CHROMIUM_MISSING, CHROMIUM_PATH, openBrowser, PHONE } from '../helpers/chromium.ts';
import { startViewServer, type ViewServer } from '../helpers/view-server.ts';

/** Words that no German sentence has. */
const ENGLISH = /\b(the|and|of|with|than|is|are|from|by|not|to|your|this|each|within|which)\b/;

/** Where screenshots go when asked for, to be looked at. */
const PICTURES = process.env.CINDERLANE_PICTURES;

describe.skipIf(!CHROMIUM_PATH)(CHROMIUM_PATH ? 'a browser that asks for German' : CHROMIUM_MISSING, () => {
  let server: ViewServer;
  let browser: Browser;
  let page: Page;
  const complaints: string[] = [];

  beforeAll(async () => {
    [server, browser] = await Promise.all([startViewServer(), openBrowser()]);
    const context = await browser.newContext({ locale: 'de-AT', viewport: PHONE });
    page = await context.newPage();
    page.setDefaultTimeout(30_000);
    page.on('pageerror', (error) => complaints.push(error.message));
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  const picture = async (name: string) => {
    if (PICTURES) await page.screenshot({ path: `${PICTURES}/german-${name}.png`, fullPage: true });
  };
  const text = async () => (await page.locator('main').innerText()).replaceAll('\u00AD', '').replaceAll(/\s+/g, ' ');

  test("a repetition's page speaks German, numbers included", async () => {
    await page.goto(`${server.address}/#/repetitions/${server.repetition_ids[1]}`);
    await page.getByRole('heading', { name: 'Schrittverlauf' }).waitFor();
    await page.getByRole('heading', { name: 'Güte der Aufzeichnung' }).waitFor();
    expect(await page.locator('html').getAttribute('lang')).toBe('de');
    const shown = await text();
    for (const word of ['Bodenkontaktzeit', 'Flugzeit', 'Schrittfrequenz', 'Schrittlänge', 'Höchstgeschwindigkeit']) {
      expect(shown).toContain(word);
    }
    expect(shown).toMatch(/\d,\d\d s/);
    const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(overflow).toBeLessThanOrEqual(0);
    await picture('repetition');
  });

  test('so does the field screen', async () => {
    await page.goto(`${server.address}/#/field/${server.session_id}`);
    await page.getByRole('link', { name: 'Alle Bodenkontakte' }).waitFor();
    const shown = await text();
    expect(shown).toContain('Lauf 2');
    expect(shown).toContain('Wie man das liest');
    await picture('field');
  });

  test('and what goes wrong, told by the server', async () => {
    await page.goto(`${server.address}/#/repetitions/999`);
    await page.getByText('Es gibt keinen Lauf 999.').waitFor();
    await page.getByText('Was zu tun ist:').waitFor();
    await picture('fault');
  });

  test.each(ROUTES.map((route) => route.path))(
    'no English is left on %s, and it fits a phone and a zoomed one',
    async (path) => {
      const filled = path
        .replace(':session_id', String(server.session_id))
        .replace(':repetition_id', String(server.repetition_ids[1]))
        .replace(':athlete_id', String(server.athlete_id))
        .replace(':focus', 'contact_time')
        .replace(':month', '2026-11');
      await page.goto(`${server.address}/#${filled}`);
      await page.locator('main h1').first().waitFor();
      await page.waitForLoadState('networkidle', { timeout: 3000 }).catch(() => undefined);
      // What people typed, what is the same in every language, and where a finding was published.
      const shown = await page.evaluate(() => {
        const main = document.querySelector('main')!.cloneNode(true) as HTMLElement;
        for (const part of main.querySelectorAll('code, pre, textarea, style, [lang="en"], a[href^="#/sessions/"]'))
          part.remove();
        return main.textContent ?? '';
      });
      const sentences = shown.replaceAll('\u00AD', '').split(/[.;:!?·]\s/);
      expect(sentences.filter((sentence) => ENGLISH.test(sentence))).toEqual([]);
      for (const width of [PHONE.width, PHONE.width / 2]) {
        await page.setViewportSize({ width, height: (PHONE.height * width) / PHONE.width });
        // Plots are drawn anew for the new width.
        const over = () => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        await expect.poll(over, { message: `${filled} at ${width} px`, timeout: 30_000 }).toBeLessThanOrEqual(0);
      }
      await page.setViewportSize(PHONE);
    },
  );

  test('English is one choice away and stays chosen', async () => {
    await page.goto(`${server.address}/#/settings`);
    await page.getByLabel('English', { exact: true }).check();
    await page.goto(`${server.address}/#/repetitions/999`);
    await page.reload();
    await page.getByText('There is no repetition 999.').waitFor();
    expect(await page.locator('html').getAttribute('lang')).toBe('en');
    expect(complaints).toEqual([]);
  });
});
