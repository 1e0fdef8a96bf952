/** Norms beside an athlete in a browser: nothing of them until the coach switches them on. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axeFindings } from '../helpers/axe.ts';
import { CHROMIUM_MISSING, CHROMIUM_PATH, complaintsOf, openBrowser, openPage, PHONE } from '../helpers/chromium.ts';
import { normCell, putNorms } from '../helpers/fetched-norms.ts';
import { smallTargets } from '../helpers/small-targets.ts';
import { startViewServer, type ViewServer } from '../helpers/view-server.ts';

describe.skipIf(!CHROMIUM_PATH)(CHROMIUM_PATH ? 'norms of a programme' : CHROMIUM_MISSING, () => {
  let server: ViewServer;
  let browser: Browser;
  let page: Page;

  beforeAll(async () => {
    [server, browser] = await Promise.all([startViewServer(), openBrowser()]);
    page = await openPage(browser);
    server.store
      .prepare("UPDATE athletes SET sex = 'female', birth_date = '2003-05-06' WHERE athlete_id = ?")
      .run(server.athlete_id);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  const picture = async (name: string) => {
    const to = process.env.CINDERLANE_PICTURES;
    if (to) await page.screenshot({ path: `${to}/norms-${name}.png`, fullPage: true });
  };

  test('stand on no page of a club that fetched none, nor of one that did not switch them on, then beside the athlete', async () => {
    const complaints = complaintsOf(page);
    await page.goto(`${server.address}/#/settings`);
    await page.getByRole('heading', { name: 'Light and dark' }).waitFor();
    await page.waitForLoadState('networkidle');
    expect(await page.getByText('Norms of the programme').count()).toBe(0);

    const key = putNorms(
      server.store,
      [6, 7].map((speed_from_mps) => normCell({ speed_from_mps, age_from: 18, age_to: null })),
    );
    await page.goto(`${server.address}/#/athletes/${server.athlete_id}`);
    await page.reload();
    await page.getByRole('heading', { name: 'Wren Abara' }).waitFor();
    await page.waitForLoadState('networkidle');
    expect(await page.getByText('Others like this').count()).toBe(0);

    await page.goto(`${server.address}/#/settings`);
    await page.getByLabel(/Show them beside an athlete/).check();
    await picture('settings');
    await page.goto(`${server.address}/#/athletes/${server.athlete_id}`);
    const others = page.getByRole('region', { name: 'Others like this' });
    await others.waitFor();
    expect(await others.textContent()).toContain('nine of ten between 108 and 134 ms (14 people)');
    expect(await others.textContent()).toContain(`signed with key ${key}`);
    expect(await others.textContent()).toContain('20 Nov 2026');
    expect(await others.textContent()).toContain('no fault and no aim');
    await others.scrollIntoViewIfNeeded();
    expect(await axeFindings(page)).toEqual([]);
    await picture('athlete');
    await page.emulateMedia({ colorScheme: 'dark' });
    await page.setViewportSize(PHONE);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
    expect(await smallTargets(page)).toEqual([]);
    await picture('phone-dark');
    expect(complaints).toEqual([]);
  });
});
