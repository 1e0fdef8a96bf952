import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CHROMIUM_MISSING, CHROMIUM_PATH, openBrowser, openPage, PHONE } from '../../helpers/chromium.ts';
import { startViewServer, type ViewServer } from '../../helpers/view-server.ts';

describe.skipIf(!CHROMIUM_PATH)(CHROMIUM_PATH ? 'the field screen' : CHROMIUM_MISSING, () => {
  let server: ViewServer;
  let browser: Browser;
  let page: Page;
  /** Questions for the view since the last look. */
  let asked = 0;

  beforeAll(async () => {
    [server, browser] = await Promise.all([startViewServer(), openBrowser()]);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  const open = async (deaf: boolean) => {
    await page?.close();
    page = await openPage(browser);
    await page.setViewportSize(PHONE);
    if (deaf) await page.route('**/field/events', (route) => route.abort());
    page.on('request', (request) => {
      if (/\/field\?/.test(request.url())) asked++;
    });
    await page.goto(`${server.address}/#/field/${server.session_id}`);
    await page.locator('.athlete-card').waitFor();
  };
  const time = async (course_time_s: number) => {
    const answer = await fetch(`${server.address}/api/repetitions/${server.repetition_ids[1]}`, {
      method: 'PATCH',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ course_time_s }),
    });
    expect(answer.status).toBe(200);
    await page.locator('.card-time', { hasText: course_time_s.toFixed(2) }).waitFor();
  };

  test('listens: what was written shows by itself, and while nothing is written nothing is asked', async () => {
    await open(false);
    await time(5.31);
    await page.waitForTimeout(1000);
    asked = 0;
    await page.waitForTimeout(3000);
    expect(asked).toBe(0);
    expect(await page.locator('.freshness').textContent()).toBe('Live');
    await time(5.32);
    expect(asked).toBeGreaterThan(0);
  });

  test('asks where it cannot listen, and shows what was written all the same', async () => {
    await open(true);
    await time(5.33);
    asked = 0;
    await page.waitForTimeout(3000);
    expect(asked).toBeGreaterThan(0);
  });
});
