import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CHROMIUM_MISSING, CHROMIUM_PATH, LAPTOP, openBrowser, openPage, PHONE } from '../../helpers/chromium.ts';
import { type DemoServer, startDemoServer } from './demo-server.ts';

interface Field {
  athletes: { athlete_id: number; name: string; ratings: unknown[] }[];
}

/** Where screenshots go when asked for, to be looked at. */
const PICTURES = process.env.CINDERLANE_PICTURES;
/** A picture of one pixel. */
const PHOTO = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
);
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

describe.skipIf(!CHROMIUM_PATH)(CHROMIUM_PATH ? "a coach's evening" : CHROMIUM_MISSING, () => {
  let server: DemoServer;
  let browser: Browser;
  let page: Page;
  let session_id = 0;
  const complaints: string[] = [];

  beforeAll(async () => {
    [server, browser] = await Promise.all([startDemoServer(), openBrowser()]);
    page = await openPage(browser);
    // A busy machine takes its time; how long things take is measured by `npm run bench:coach`.
    page.setDefaultTimeout(30_000);
    await page.setViewportSize(PHONE);
    page.on('pageerror', (error) => complaints.push(error.message));
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  const picture = async (name: string) => {
    if (PICTURES) await page.screenshot({ path: `${PICTURES}/evening-${name}.png`, fullPage: true });
  };
  const text = async (selector: string) =>
    (await page.locator(selector).first().textContent())!.replaceAll(/\s+/g, ' ').trim();

  test('plans the session from a template, is warned beyond the limit, and keeps it', async () => {
    await page.goto(`${server.address}/#/plan`);
    await page.getByLabel('Group').selectOption({ index: 1 });
    await page.getByRole('button', { name: /Short sprints/ }).click();
    await page.locator('.plan-set').first().waitFor();
    const last = page.locator('.plan-set').last();
    // 16 sprints of 20 m are 320 m, more than the 300 m of Haugen 2019, doi 10.1186/s40798-019-0221-0, table 2.
    await last.getByLabel('Repetitions').fill('16');
    await page.getByText(/\(20 m\) over the limit of 328 yd \(300 m\)/).waitFor();
    await picture('1-plan');
    await last.getByRole('button', { name: /^Delete/ }).click();
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.locator('.plan-set').last().getByLabel('Repetitions').fill('8');
    await page.getByText(/over the limit of 328 yd/).waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'To the field' }).click();
    await page.waitForURL(/#\/field\/\d+/);
    session_id = Number(/field\/(\d+)/.exec(page.url())![1]);
    await page.locator('.athlete-card').waitFor();
    expect(await page.locator('.athlete-strip li').count()).toBe(4);
    expect(await text('.athlete-card .headline')).toBe('No repetition yet.');
  });

  test('whoever just ran shows by itself, the next athlete is one tap away', async () => {
    const { athletes } = await server.api.call<{ athletes: { athlete_id: number; name: string }[] }>(
      'GET',
      `/coach/sessions/${session_id}/field`,
    );
    for (const [index, athlete] of athletes.entries()) {
      await server.run(athlete.athlete_id, session_id, 40 + index);
      await page.locator('.card-head h2', { hasText: athlete.name }).waitFor();
      await page.locator('.athlete-card .judged').first().waitFor();
      expect(await text('.card-course')).toContain('repetition 1 of 8 · 40 yd · 100 %');
    }
    expect(await text('.judged')).toMatch(/contact time.*?1?\d\d ± \d+ ms/);
    await picture('2-field');
    await page.locator('.field-steps .primary').click();
    expect(await text('.card-head h2')).toBe(athletes[0].name);
  });

  test('who has no sensors is offered an evening to watch: four athletes run again, marked as replay, and nothing is stored', async () => {
    const { items } = await server.api.call<{
      items: { session_id: number; athlete_ids: number[]; repetition_count: number }[];
    }>('GET', '/sessions');
    const evening = items.find((item) => item.session_id !== session_id && item.athlete_ids.length === 4)!;
    await page.goto(`${server.address}/#/sessions`);
    await page.getByText('Nobody here exists: people and signals are invented.').waitFor();
    await page.getByRole('button', { name: 'Watch it live' }).waitFor();
    await picture('2a-first-screen');
    await server.api.call('POST', '/capture/replay', { session_id: evening.session_id, speed: 10 });
    await page.goto(`${server.address}/#/field/${evening.session_id}?replay=1`);
    await page.locator('.card-course .replay-mark').waitFor();
    await picture('2b-replay');
    expect(await page.locator('.scores, .stopwatch').count()).toBe(0);
    await page.getByText('The replay is over. Nothing of it was stored.').waitFor({ timeout: 120_000 });
    const { athletes } = await server.api.call<{ athletes: { done: number }[] }>(
      'GET',
      `/coach/sessions/${evening.session_id}/field`,
    );
    // Everybody has had as many results again as are stored.
    const told = async () => {
      const texts = await page.locator('.strip-state').allTextContents();
      return texts.map((text) => Number.parseInt(text, 10));
    };
    await expect.poll(told, { timeout: 30_000 }).toEqual(athletes.map((athlete) => athlete.done));
    const after = await server.api.call<{ repetition_count: number }>('GET', `/sessions/${evening.session_id}`);
    expect(after.repetition_count).toBe(evening.repetition_count);
  });

  test('name, verdict, rating and next athlete are in sight without scrolling: upright, on its side, at 200 %', async () => {
    // WCAG 2.2, 1.4.4: 200 % of a laptop's and of a phone's screen leave half of its width and height.
    const sizes = [PHONE, { width: 844, height: 390 }, { width: 640, height: 400 }, { width: 195, height: 422 }];
    const hidden: string[] = [];
    await page.goto(`${server.address}/#/field/${session_id}`);
    await page.locator('.scores').first().waitFor();
    for (const size of sizes) {
      await page.setViewportSize(size);
      await page.evaluate(() => window.scrollTo(0, 0));
      for (const part of ['.card-head h2', '.headline', '.scores .choice-row', '.field-steps .primary']) {
        const cut = await page.locator(part).first().evaluate(outOfSight);
        if (cut !== '') hidden.push(`${part} at ${size.width} x ${size.height}: ${cut}`);
      }
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      if (wide > 0) hidden.push(`${size.width} x ${size.height}: ${wide} px too wide`);
      await picture(`2c-field-${size.width}`);
    }
    await page.setViewportSize(PHONE);
    expect(hidden).toEqual([]);
  });

  test('the rest clock counts by itself from the last contact', async () => {
    const clock = page.locator('.rest-clock strong');
    const seconds = async () => {
      const [minutes, rest] = (await clock.textContent())!.split(':').map(Number);
      return 60 * minutes + rest;
    };
    const before = await seconds();
    await expect.poll(seconds, { timeout: 10_000 }).toBeGreaterThan(before);
  });

  test('a time by hand takes two taps and goes to the repetition it was taken of', async () => {
    const { athletes } = await server.api.call<Field>('GET', `/coach/sessions/${session_id}/field`);
    const { athlete_id, name } = athletes[0];
    await page.locator('.athlete-strip button', { hasText: name }).click();
    await page.getByRole('button', { name: `Hand time: start the stopwatch for ${name}` }).click();
    const stop = page.getByRole('button', { name: /^Stop / });
    await stop.waitFor();
    // Looked at meanwhile, and loaded anew: the watch runs on.
    await page.locator('.field-steps .primary').click();
    await page.reload();
    await stop.click();
    await page.locator('.athlete-strip button', { hasText: name }).click();
    await page.getByText('by hand; goes to the result when it is in.').waitFor();
    const repetition_id = await server.run(athlete_id, session_id, 60, { timed: false });
    await page.getByText('by hand; goes to the result when it is in.').waitFor({ state: 'detached' });
    await expect
      .poll(async () => {
        const { course_time_s, timing_method } = await server.api.call<{
          course_time_s: number | null;
          timing_method: string | null;
        }>('GET', `/repetitions/${repetition_id}`);
        return course_time_s !== null && course_time_s > 0 && course_time_s < 60 ? timing_method : null;
      })
      .toBe('hand');
    await page.getByText('to send').waitFor({ state: 'detached' });
  });

  test('without network the page opens again, takes a rating, and the rating is stored once when the network is back', async () => {
    await page.evaluate(() => navigator.serviceWorker.ready);
    const name = await text('.card-head h2');
    const sent: string[] = [];
    page.on('request', (request) => {
      if (request.method() === 'PUT' && request.url().includes('/ratings/')) sent.push(request.url());
    });
    await page.context().setOffline(true);
    await page.reload();
    await page.locator('.freshness.is-old').waitFor();
    expect(await text('.freshness')).toMatch(/No answer\. Results from \d+ (?:s|min) ago; trying again by itself/);
    await page.locator('.athlete-strip button', { hasText: name }).click();
    await page.locator('.scores label', { hasText: '4' }).first().click();
    await page.locator('.rating-more summary').click();
    await page.getByLabel('Note').fill('landed well');
    await page.getByLabel('Note').blur();
    await page.getByText('1 entry kept here').waitFor();
    await page.locator('.rating-more input[type=file]').setInputFiles({
      name: 'landing.png',
      mimeType: 'image/png',
      buffer: PHOTO,
    });
    await page.getByText('2 entries kept here').waitFor();
    await page.locator('img.rating-photo').waitFor();
    await picture('3-no-network');
    // As it opens from a phone's first screen.
    await page.goto(`${server.address}/#/field`);
    await page.reload();
    await page.waitForURL(/#\/field\/\d+$/);
    await page.getByText('2 entries kept here').waitFor();
    sent.length = 0;
    await page.context().setOffline(false);
    await page.locator('.freshness.is-old').waitFor({ state: 'detached' });
    await page.getByText('to send').waitFor({ state: 'detached' });
    const { athletes } = await server.api.call<Field>('GET', `/coach/sessions/${session_id}/field`);
    expect(athletes.find((athlete) => athlete.name === name)!.ratings).toMatchObject([
      { rating: 4, note: 'landed well', has_photo: true },
    ]);
    // The photograph is stored once as well, byte for byte.
    const [photo] = sent.filter((url) => url.endsWith('/photo'));
    expect(sent).toHaveLength(2);
    expect(Buffer.from(await (await fetch(photo)).arrayBuffer()).equals(PHOTO)).toBe(true);
  });

  test('the screen is kept on while the field is open: asked again when the page is seen again, let go when it is left', async () => {
    const awake = await (await browser.newContext({ viewport: PHONE })).newPage();
    await awake.addInitScript(() => {
      const asked: WakeLockSentinel[] = [];
      const lock = () => {
        const release = () => {
          sentinel.released = true;
          return Promise.resolve();
        };
        const sentinel = { released: false, release };
        asked.push(sentinel as unknown as WakeLockSentinel);
        return Promise.resolve(sentinel);
      };
      Object.defineProperty(navigator, 'wakeLock', { value: { request: lock } });
      Object.assign(window, { asked });
    });
    const locks = () =>
      awake.evaluate(() => (window as unknown as { asked: WakeLockSentinel[] }).asked.map(({ released }) => released));
    const turn = (state: string) =>
      awake.evaluate((visibility) => {
        Object.defineProperty(document, 'visibilityState', { value: visibility, configurable: true });
        // The system lets go of the lock of a page that is hidden.
        if (visibility === 'hidden') {
          for (const one of (window as unknown as { asked: WakeLockSentinel[] }).asked) void one.release();
        }
        document.dispatchEvent(new Event('visibilitychange'));
      }, state);
    await awake.goto(`${server.address}/#/field/${session_id}`);
    await expect.poll(locks).toEqual([false]);
    await turn('hidden');
    expect(await locks()).toEqual([true]);
    await turn('visible');
    await expect.poll(locks).toEqual([true, false]);
    await awake.goto(`${server.address}/#/sessions`);
    await expect.poll(locks).toEqual([true, true]);
    await awake.context().close();
  });

  test('a browser may install it', async () => {
    const session = await page.context().newCDPSession(page);
    const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
    // A private window, as every window of a test is, may not install anything.
    expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito')).toEqual([]);
  });

  test('changes the focus and takes it back', async () => {
    await page.locator('.card-head h2 a').click();
    await page.getByRole('heading', { name: 'Works on' }).waitFor();
    const before = await text('.focus-now h3');
    await page.getByRole('button', { name: 'Finish' }).click();
    await page.getByText('No focus yet').waitFor();
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.locator('.focus-now h3').waitFor();
    expect(await text('.focus-now h3')).toBe(before);
    await picture('4-athlete');
  });

  test('records two sprint tests by hand, learns whether the change is real, deletes one and undoes it', async () => {
    await page.getByRole('link', { name: 'Sprint tests' }).click();
    for (const [date, time] of [
      ['2026-01-10', '5.30'],
      ['2026-01-24', '5,02'],
    ]) {
      await page.getByRole('button', { name: 'Record a test' }).click();
      await page.getByLabel('Time, s').fill(time);
      await page.getByLabel('Method').selectOption('hand');
      await page.getByLabel('Date').fill(date);
      await page.getByRole('button', { name: 'Record', exact: true }).click();
      await page.locator('dialog[open]').waitFor({ state: 'detached' });
    }
    await picture('5-tests');
    await page.getByText('0.28 s faster than on 10 January: a real change, hand times need 0.21 s.').waitFor();
    const row = page.getByRole('row', { name: /5\.02 s/ });
    await row.getByRole('button', { name: /Change/ }).click();
    await page.getByRole('button', { name: 'Delete', exact: true }).click();
    await row.waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Undo' }).click();
    await row.waitFor();
  });

  test('hands out the page of the session, on screen and as a PDF of one page', async () => {
    await page.goto(`${server.address}/#/field/${session_id}`);
    await page.getByRole('link', { name: /^Page for/ }).click();
    await page.locator('.picture').nth(2).waitFor();
    expect(await page.locator('.report-sentences li').count()).toBeLessThanOrEqual(5);
    const href = await page.getByRole('link', { name: 'PDF' }).getAttribute('href');
    const pdf = Buffer.from(await (await fetch(server.address + href)).arrayBuffer());
    expect(pdf.toString('latin1').match(/\/Type \/Page\b/g)).toHaveLength(1);
    await picture('6-report');
  });

  test('the field screen works by keyboard alone', async () => {
    await page.goto(`${server.address}/#/field/${session_id}`);
    await page.locator('.field-steps .primary').waitFor();
    const before = await text('.card-head h2');
    await page.locator('main').focus();
    for (let k = 0; k < 40; k++) {
      await page.keyboard.press('Tab');
      if (await page.evaluate(() => document.activeElement?.matches('.field-steps .primary'))) break;
    }
    await page.keyboard.press('Enter');
    expect(await text('.card-head h2')).not.toBe(before);
    const outline = await page.evaluate(() => getComputedStyle(document.activeElement!).outlineStyle);
    expect(outline).toBe('solid');
  });

  test('the crowded pages fit a phone and a laptop, without serious findings of axe-core', async () => {
    const athlete = 1;
    // view.test.ts looks at every page at both sizes; these are crowded once a club's data is in them.
    const paths = [
      `/field/${session_id}`,
      `/plan/${session_id}`,
      `/athletes/${athlete}`,
      `/athletes/${athlete}/course`,
      `/athletes/${athlete}/tests`,
      `/athletes/${athlete}/focuses/contact_time`,
      `/reports/month/${athlete}/${new Date().toISOString().slice(0, 7)}`,
    ];
    const findings: string[] = [];
    for (const size of [PHONE, LAPTOP]) {
      await page.setViewportSize(size);
      for (const path of size === PHONE ? paths : paths.slice(0, 2)) {
        await page.goto(`${server.address}/#${path}`);
        await page.locator('main h1').first().waitFor();
        await page.waitForTimeout(150);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        if (wide > 0) findings.push(`${path} at ${size.width}: ${wide} px too wide`);
        if (size === PHONE) findings.push(...(await smallTargets(page)).map((target) => `${path}: ${target}`));
        findings.push(...(await axeFindings(page)).map((finding) => `${path} at ${size.width}: ${finding}`));
        await picture(`${size.width}${path.replaceAll('/', '-')}`);
      }
    }
    expect(findings).toEqual([]);
    expect(complaints).toEqual([]);
  });
});

/** What of an element cannot be seen or touched: beyond the screen, or under something else; empty for nothing. Runs in the page. */
function outOfSight(element: Element): string {
  const { top, bottom, left, right } = element.getBoundingClientRect();
  if (top < 0 || left < 0 || bottom > window.innerHeight + 0.5 || right > window.innerWidth + 0.5) {
    return `from ${Math.round(top)} to ${Math.round(bottom)} px`;
  }
  const at = document.elementFromPoint((left + right) / 2, bottom - 4);
  return at === null || element.contains(at) || at.contains(element) ? '' : `under ${at.className}`;
}

/** Buttons lower than a finger is wide. */
function smallTargets(page: Page): Promise<string[]> {
  return page
    .locator('main button:visible, main a.button:visible')
    .evaluateAll((targets) =>
      targets
        .filter((target) => target.getBoundingClientRect().height < 47.5)
        .map((target) => `"${target.textContent}" is ${target.getBoundingClientRect().height} px high`),
    );
}

async function axeFindings(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const axe = (window as unknown as { axe: { run(): Promise<{ violations: Violation[] }> } }).axe;
    interface Violation {
      id: string;
      impact: string;
      nodes: { target: string[] }[];
    }
    const { violations } = await axe.run();
    return violations
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join(', ')}`);
  });
}
