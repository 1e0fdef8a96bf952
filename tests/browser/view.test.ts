import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ROUTES } from '../../web/routes.ts';
import { axeFindings } from '../helpers/axe.ts';
import { CHROMIUM_MISSING, CHROMIUM_PATH, LAPTOP, openBrowser, openPage, PHONE } from '../helpers/chromium.ts';
import { smallTargets } from '../helpers/small-targets.ts';
import { startViewServer, type ViewServer } from '../helpers/view-server.ts';

describe.skipIf(!CHROMIUM_PATH)(CHROMIUM_PATH ? 'the view in a browser' : CHROMIUM_MISSING, () => {
  let server: ViewServer;
  let browser: Browser;
  let page: Page;
  /** What the browser complained about since the last look. */
  const complaints: string[] = [];

  beforeAll(async () => {
    [server, browser] = await Promise.all([startViewServer(), openBrowser()]);
    page = await openPage(browser);
    page.on('pageerror', (error) => complaints.push(error.message));
    page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  const open = async (path: string) => {
    await page.goto(`${server.address}/#${path}`);
    await page.waitForLoadState('networkidle');
  };

  test('a coach opens a session, then a repetition, and sees its contacts', async () => {
    await open('/sessions');
    await page.getByRole('link', { name: /Speed, 40 yd/ }).click();
    await page.getByRole('link', { name: /repetition 1/ }).click();
    await page.getByRole('heading', { name: 'Wren Abara, repetition 1' }).waitFor();
    const rows = page.getByRole('region', { name: 'Every contact' }).locator('tbody tr');
    await rows.first().waitFor();
    // 40 yd take a sprinter of this speed some 18 to 22 steps (common practice).
    expect(await rows.count()).toBeGreaterThan(14);
    expect(await rows.count()).toBeLessThan(26);
    expect(await page.locator('.headline').textContent()).toMatch(/^Contact \d+ ms/);
    expect(complaints).toEqual([]);
  });

  test('the first page comes pressed, in less than 60 kB beside its typeface', async () => {
    const fresh = await openPage(browser);
    const sizes: Promise<{ path: string; bytes: number }>[] = [];
    fresh.on('requestfinished', (request) => {
      const { pathname: path } = new URL(request.url());
      if (path.startsWith('/api/')) return;
      sizes.push(request.sizes().then(({ responseBodySize: bytes }) => ({ path, bytes })));
    });
    await fresh.goto(`${server.address}/`);
    await fresh.locator('a.line').first().waitFor();
    await fresh.waitForLoadState('networkidle');
    const files = (await Promise.all(sizes)).filter(({ path }) => !path.endsWith('.woff2'));
    await fresh.close();
    expect(files.map(({ path }) => path)).toContainEqual(expect.stringMatching(/\/assets\/view-.*\.js$/));
    expect(files.reduce((sum, { bytes }) => sum + bytes, 0)).toBeLessThan(60_000);
  });

  test('a repetition is printed on one page', async () => {
    await open(`/repetitions/${server.repetition_ids[1]}`);
    await page.locator('.plot circle.marker.left').first().waitFor();
    const pdf = await page.pdf({ format: 'A4' });
    expect(pdf.toString('latin1').match(/\/Type \/Page\b/g)).toHaveLength(1);
  });

  test('left and right differ by more than colour', async () => {
    await open(`/repetitions/${server.repetition_ids[0]}`);
    await page.locator('.plot circle.marker.left').first().waitFor();
    expect(await page.locator('.plot rect.marker.right').count()).toBeGreaterThan(5);
    const dash = (side: string) =>
      page.locator(`.plot path.series.${side}`).evaluate((line) => getComputedStyle(line).strokeDasharray);
    expect(await dash('left')).toBe('none');
    expect(await dash('right')).not.toBe('none');
  });

  test('the second repetition stands over the first, faint behind', async () => {
    await open(`/repetitions/${server.repetition_ids[1]}`);
    await page.locator('.plot path.earlier').waitFor({ state: 'attached' });
    expect(await page.getByText('earlier today, same effort and course (1)').count()).toBe(1);
  });

  test('the profile turns from steps to distance and back, and the address keeps the choice', async () => {
    await open(`/repetitions/${server.repetition_ids[0]}`);
    await page.getByRole('radio', { name: 'by distance' }).check();
    await page.getByText('distance (m)').waitFor();
    expect(page.url()).toContain('by=distance');
    await page.reload();
    await page.getByText('distance (m)').waitFor();
    await page.getByRole('radio', { name: 'by step' }).check();
    await page.locator('.axis-label', { hasText: /^step$/ }).waitFor();
    await page.getByRole('radio', { name: 'step rate' }).check();
    await page.locator('.axis-label', { hasText: 'step rate (/s)' }).waitFor();
  });

  test('arrow keys read the profile contact by contact', async () => {
    await open(`/repetitions/${server.repetition_ids[0]}`);
    const plot = page.getByRole('slider', { name: 'Contact under the cursor' });
    await plot.focus();
    await page.keyboard.press('Home');
    await page.locator('.readout', { hasText: /^step 1, / }).waitFor();
    await page.keyboard.press('ArrowRight');
    await page.locator('.readout', { hasText: /^step 2, / }).waitFor();
    expect(await plot.getAttribute('aria-valuetext')).toMatch(/^step 2, (left|right).*contact time \d+ ± \d+ ms/);
    expect(await page.locator('tr.selected th').textContent()).toBe('2');
  });

  test('the raw signal zooms, moves and steps from contact to contact by keyboard', async () => {
    await open(`/repetitions/${server.repetition_ids[0]}`);
    const signal = page.getByRole('application', { name: /Raw signal/ });
    await signal.locator('canvas').first().waitFor();
    const window = async () => {
      const words = (await page.locator('.signal-time').textContent()) ?? '';
      return words.match(/[\d.]+/g)!.map(Number) as [number, number];
    };
    await signal.focus();
    const before = await window();
    await page.keyboard.press('+');
    await page.keyboard.press('+');
    await expect
      .poll(async () => (await window())[1] - (await window())[0])
      .toBeCloseTo((before[1] - before[0]) / 4, 1);
    const zoomed = await window();
    await page.keyboard.press('ArrowRight');
    await expect.poll(async () => (await window())[0]).toBeGreaterThan(zoomed[0]);
    await page.keyboard.press('n');
    await page.locator('tr.selected').waitFor();
    await page.keyboard.press('0');
    await expect.poll(async () => (await window())[0]).toBe(0);
  });

  test('two fingers zoom the signal and one finger moves it', async () => {
    const phone = await browser.newPage({ viewport: PHONE, hasTouch: true, isMobile: true });
    await phone.goto(`${server.address}/#/repetitions/${server.repetition_ids[0]}`);
    await phone.locator('.signal canvas').first().waitFor();
    await phone.evaluate(() => document.querySelector('.signal')!.scrollIntoView());
    const { x, y } = (await phone.locator('.signal-plot').first().boundingBox())!;
    const fingers = await phone.context().newCDPSession(phone);
    const swipe = async (from: number[], to: number[]) => {
      const at = (places: number[]) => places.map((place, id) => ({ x: x + place, y: y + 100, id }));
      await fingers.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: at(from) });
      for (let part = 1; part <= 5; part++) {
        const between = from.map((place, id) => place + ((to[id] - place) * part) / 5);
        await fingers.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: at(between) });
      }
      await fingers.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    };
    const shown = async () =>
      ((await phone.locator('.signal-time').textContent()) ?? '').match(/[\d.]+/g)!.map(Number) as [number, number];
    const [from, to] = await shown();
    await swipe([120, 200], [60, 260]);
    await expect.poll(async () => (await shown())[1] - (await shown())[0]).toBeLessThan(0.7 * (to - from));
    const zoomed = await shown();
    await swipe([220], [140]);
    await expect.poll(async () => (await shown())[0]).toBeGreaterThan(zoomed[0]);
    await phone.close();
  });

  test('units are chosen once and remembered', async () => {
    await open('/settings');
    await page.getByRole('radio', { name: 'feet' }).check();
    await open(`/repetitions/${server.repetition_ids[0]}`);
    await page.locator('.figure-tile', { hasText: 'step length' }).getByText('ft').waitFor();
    await open('/settings');
    await page.getByRole('radio', { name: 'metres' }).check();
  });

  test('a deleted repetition comes back with one press', async () => {
    await open(`/repetitions/${server.repetition_ids[1]}`);
    await page.getByRole('button', { name: 'Delete' }).click();
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('heading', { name: 'Wren Abara, repetition 2' }).waitFor();
  });

  test('a press that fails without a network says so and loses nothing', async () => {
    await open(`/repetitions/${server.repetition_ids[1]}`);
    await page.route('**/api/repetitions/*', (route) => route.abort());
    await page.getByRole('button', { name: 'Delete' }).click();
    await page.getByRole('alert').filter({ hasText: 'did not answer' }).waitFor();
    await page.unroute('**/api/repetitions/*');
    await page.reload();
    await page.getByRole('heading', { name: 'Wren Abara, repetition 2' }).waitFor();
    complaints.length = 0;
  });

  test('an address that leads nowhere says so', async () => {
    await open('/nowhere');
    await page.getByRole('heading', { name: 'Nothing here' }).waitFor();
    await open('/repetitions/999999');
    expect(await page.getByRole('alert').textContent()).toContain('999999');
    complaints.length = 0;
  });

  const ids = () => ({
    session_id: server.session_id,
    repetition_id: server.repetition_ids[1],
    athlete_id: server.athlete_id,
    focus: 'contact_time',
    month: '2026-11',
  });
  const filled = (path: string) =>
    path.replace(/:(\w+)/g, (_, name: string) => {
      const id = ids()[name as keyof ReturnType<typeof ids>];
      if (id === undefined) throw new Error(`say what :${name} of ${path} stands for`);
      return String(id);
    });

  test('axe has something to say where something is wrong', async () => {
    await open('/settings');
    await page.evaluate(() => document.querySelector('main')!.append(document.createElement('input')));
    expect((await axeFindings(page)).join()).toContain('label');
    await page.reload();
    complaints.length = 0;
  });

  for (const [name, size] of Object.entries({ phone: PHONE, laptop: LAPTOP })) {
    test.each(ROUTES.map((route) => route.path))(`%s fits a ${name} and has nothing for axe to say`, async (path) => {
      await page.setViewportSize(size);
      await open(filled(path));
      await page.waitForFunction(
        () => document.querySelector('main h1') && !document.querySelector('main .quiet[role=status]'),
      );
      expect(complaints).toEqual([]);
      expect(await axeFindings(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBe(0);
      if (name === 'phone') expect(await smallTargets(page)).toEqual([]);
      // axe sets styles in a way that the page's own rules refuse.
      complaints.length = 0;
    });
  }
});
