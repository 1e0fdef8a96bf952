/**
 * A coach at a desk, in a real browser: how an athlete stands, a session, the group, a comparison, a film beside contacts. With
 * CINDERLANE_PICTURES=DIR it leaves a picture of every page at both sizes and in both themes, to be looked at.
 */
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { addFocus } from '../../../api/coach/athlete-records.ts';
import { addStrengthRecord } from '../../../api/coach/tests/strength-log.ts';
import { addSprintTest } from '../../../api/coach/tests/sprint-tests.ts';
import { addDays, localDate } from '../../../shared/dates.ts';
import { makeAthlete, makeRepetition, makeSession } from '../../api/coach/make-club.ts';
import { axeFindings } from '../../helpers/axe.ts';
import { CHROMIUM_MISSING, CHROMIUM_PATH, openBrowser, openPage, PHONE } from '../../helpers/chromium.ts';
import { startViewServer, type ViewServer } from '../../helpers/view-server.ts';

const PICTURES = process.env.CINDERLANE_PICTURES;
const LAPTOP = { width: 1280, height: 800 };
const TODAY = localDate(new Date());
const FOCUS_FROM = addDays(TODAY, -21);
const DAYS = [0.6, -0.4, 0.3, -0.7, 0.5, -0.2, 0.1, -0.5];
/**
 * 6.5 s of 60 pictures a second, 160 x 48: of ten columns each is white where that bit of the picture's number is set. Made by
 * ffmpeg 5.1: color=gray:160x48:60, geq=lum='if(bitand(N,pow(2,floor(X/16))),235,16)', libvpx.
 */
const FILM = fileURLToPath(new URL('./data/coded-60.webm', import.meta.url));

describe.skipIf(!CHROMIUM_PATH)(CHROMIUM_PATH ? 'a coach at a desk' : CHROMIUM_MISSING, () => {
  let server: ViewServer;
  let browser: Browser;
  let page: Page;
  let wren = 0;
  let last_session = 0;
  const last_repetitions: number[] = [];
  const complaints: string[] = [];

  beforeAll(async () => {
    [server, browser] = await Promise.all([startViewServer(), openBrowser()]);
    const { store } = server;
    wren = makeAthlete(store, 'Robin Falk');
    addFocus(store, wren, { focus: 'contact_time', from_date: FOCUS_FROM });
    for (const [s, day] of DAYS.entries()) {
      const date = addDays(TODAY, -5 * (DAYS.length - 1 - s));
      last_session = makeSession(store, date);
      last_repetitions.length = 0;
      for (const own of [-1, 0.5, 0.7]) {
        const contact_time_ms = 120 + day + own - (date >= FOCUS_FROM ? 9 : 0);
        last_repetitions.push(makeRepetition(store, last_session, wren, { contact_time_ms }));
      }
    }
    const timed = { athlete_id: wren, distance_m: 36.576, distance_unit: 'yd', timing_method: 'beam' } as const;
    for (const [days, time_s, split_time_s] of [
      [-30, 5.31, 1.9],
      [-2, 5.12, 1.85],
    ]) {
      addSprintTest(store, {
        ...timed,
        date: addDays(TODAY, days),
        time_s,
        splits: [{ distance_m: 10, split_time_s }],
      });
      const lifted = {
        lift: 'parallel_squat',
        load_kg: 80 + days / 3,
        load_unit: 'kg',
        sets: 3,
        repetitions: 3,
      } as const;
      addStrengthRecord(store, { athlete_id: wren, date: addDays(TODAY, days), ...lifted });
    }
    page = await openPage(browser);
    await page.setViewportSize(LAPTOP);
    page.on('pageerror', (error) => complaints.push(error.message));
    page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  const open = async (path: string, ready: string) => {
    await page.goto(`${server.address}/#${path}`);
    await page.locator(ready).first().waitFor();
  };
  const text = async (selector: string) =>
    (await page.locator(selector).first().textContent())!.replaceAll(/\s+/g, ' ').trim();

  /** The page as it stands: for axe, within its width at both sizes and at 200 % zoom, and as pictures where asked for. */
  const lookedAt = async (name: string) => {
    for (const [size, viewport] of Object.entries({
      phone: PHONE,
      laptop: LAPTOP,
      zoomed: { width: 640, height: 400 },
    })) {
      await page.setViewportSize(viewport);
      for (const theme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme: theme });
        await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(resolve)));
        if (PICTURES) await page.screenshot({ path: `${PICTURES}/desk-${name}-${size}-${theme}.png`, fullPage: true });
      }
      const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect([name, size, over]).toEqual([name, size, 0]);
    }
    await page.setViewportSize(LAPTOP);
    await page.emulateMedia({ colorScheme: 'light' });
    expect(complaints).toEqual([]);
    expect(await axeFindings(page)).toEqual([]);
    // axe sets styles in a way that the page's own rules refuse.
    complaints.length = 0;
  };

  test('an athlete: the sentence of the block first, three numbers against normal and the start, tests', async () => {
    await open(`/athletes/${wren}`, '.number-now');
    expect(await text('.standing-sentence')).toMatch(/^Better: contact from 12\d to 11\d ms since /);
    expect(await page.locator('.number-now').count()).toBe(3);
    expect(await text('.number-now')).toMatch(
      /contact time · focus ?11\d.*Against normal.*Since the start of the block/,
    );
    expect(await text('.what-next')).toMatch(/Last sprint test ?5\.12 s, the best of this kind so far/);
    // What a coach asks first stands on the first screen of a laptop.
    const sentence = (await page.locator('.standing-sentence').boundingBox())!;
    const first = (await page.locator('.number-now').first().boundingBox())!;
    expect(sentence.y + sentence.height).toBeLessThan(first.y);
    expect(first.y + first.height).toBeLessThan(LAPTOP.height);
    await lookedAt('athlete');
  });

  test('a session: one verdict and a mark for each repetition; all numbers on request', async () => {
    await open(`/sessions/${last_session}`, '.day-card');
    expect(await text('.day-card .verdict')).toMatch(/^(Contact|Better: contact) .*11\d ms/);
    expect(await text('.standing-sentence')).toMatch(/^(Better: Robin Falk\.|Nobody left what is usual for them)/);
    expect(await page.locator('.day-marks li').count()).toBe(3);
    expect(await page.locator('table.numbers').count()).toBe(0);
    await lookedAt('session');
    await page.getByRole('radio', { name: 'all numbers' }).check();
    await page.getByRole('table', { name: /Repetitions of Robin Falk/ }).waitFor();
    expect(page.url()).toContain('order=athlete');
  });

  test('the group: who changed, who is due, best times', async () => {
    await open('/athletes', '.group-now');
    const changed = page.getByRole('region', { name: 'Who changed' });
    expect(await changed.textContent()).toMatch(/Robin FalkBetter: contact from 12\d to 11\d ms/);
    const best = page.getByRole('row', { name: /Robin Falk/ });
    expect(await best.textContent()).toMatch(/Robin Falk5\.125\.12/);
    await lookedAt('group');
  });

  test('compares the block with the time before it, then two repetitions, by keyboard alone', async () => {
    await open(`/compare?kind=blocks&athlete_id=${wren}`, '.compare-table');
    const contact = page.getByRole('row', { name: /^contact time ms/ });
    expect(await contact.textContent()).toMatch(/B 9 ms shorter than A \(\d+ to \d+ ms\): beyond chance\./);
    await lookedAt('compare');
    await page.getByRole('slider').focus();
    await page.keyboard.press('End');
    expect(await text('.readout')).toMatch(/^step 20: contact time A \d+ ± \d+, B \d+ ± \d+ ms/);
    await page.getByRole('radio', { name: 'blocks' }).focus();
    await page.keyboard.press('ArrowRight');
    expect(await page.getByRole('radio', { name: 'repetitions' }).isChecked()).toBe(true);
    await page.goto(`${server.address}/#/compare?kind=repetitions&session_id=${server.session_id}`);
    await page.getByText('One athlete: what stays the same in the measuring error drops out').waitFor();
    expect(await page.locator('.compare-names').textContent()).toMatch(/repetition 1 of .*repetition 2 of /);
  });

  /** The number of the picture on screen, read off its columns. */
  const pictureNumber = () =>
    page.locator('video.film').evaluate((video: HTMLVideoElement) => {
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [160, 48];
      const context = canvas.getContext('2d')!;
      context.drawImage(video, 0, 0, 160, 48);
      let number = 0;
      for (let bit = 0; bit < 10; bit++) {
        if (context.getImageData(bit * 16 + 8, 24, 1, 1).data[0] > 127) number += 2 ** bit;
      }
      return number;
    });
  /** The film's time that the page tells for the frame on screen, s. */
  const told_s = async () => Number(/Frame at ([\d.]+) s/.exec(await text('.film-where'))![1]);

  test('a film of the device: frame by frame by its own times, nothing of it sent', async () => {
    const sent: string[] = [];
    page.on('request', (request) => request.method() !== 'GET' && sent.push(request.postData() ?? ''));
    await open(`/repetitions/${server.repetition_ids[0]}/film`, 'input[type=file]');
    await page.locator('input[type=file]').setInputFiles(FILM);
    await page.locator('.film-where').waitFor();
    expect(await text('.film-where')).toContain('one every 16.7 ms');
    // 60 pictures a second: picture n stands from n / 60 s on; files of this kind round times to milliseconds.
    for (let n = 1; n <= 5; n++) {
      await page.getByRole('button', { name: 'One frame on' }).click();
      await expect.poll(pictureNumber).toBe(n);
      expect(await told_s()).toBeCloseTo(n / 60, 2);
    }
    await page.getByRole('button', { name: 'One frame back' }).click();
    await expect.poll(pictureNumber).toBe(4);
    await page.getByRole('button', { name: 'Play slowly' }).click();
    await expect.poll(pictureNumber).toBeGreaterThan(12);
    await page.getByRole('button', { name: 'Stop here' }).click();
    await page.getByRole('button', { name: 'Play slowly' }).waitFor();
    await expect.poll(async () => Math.round(60 * (await told_s())) - (await pictureNumber())).toBe(0);
    // Back to the picture that is the touchdown in what follows.
    await page.getByRole('slider', { name: 'Place in the film, seconds' }).evaluate((slider: HTMLInputElement) => {
      slider.value = String(4 / 60);
      slider.dispatchEvent(new Event('input', { bubbles: true }));
    });
    await expect.poll(pictureNumber).toBe(4);
    expect(sent).toEqual([]);
  });

  test('one touchdown marked ties it: from then on every contact shows its own picture', async () => {
    const answer = await fetch(`${server.address}/api/repetitions/${server.repetition_ids[0]}/profile`);
    const { contacts } = (await answer.json()) as { contacts: { touchdown_s: number; toe_off_s: number }[] };
    await page.getByRole('button', { name: 'This frame is the touchdown of step 1' }).click();
    await page.getByText('Tied by 1 mark').waitFor();
    // Picture 4 is the touchdown of step 1; the run is filmed in real time, so picture n lies (n - 4) / 60 s after it.
    const pictureOf = (instant_s: number) => 4 + 60 * (instant_s - contacts[0].touchdown_s);
    for (let step = 2; step <= 4; step++) {
      await page.getByRole('button', { name: 'Next contact' }).click();
      const wanted = pictureOf(contacts[step - 1].touchdown_s);
      await expect.poll(async () => Math.abs((await pictureNumber()) - wanted)).toBeLessThanOrEqual(0.6);
    }
    await page.getByRole('radio', { name: 'toe-off' }).check();
    const off = pictureOf(contacts[3].toe_off_s);
    await expect.poll(async () => Math.abs((await pictureNumber()) - off)).toBeLessThanOrEqual(0.6);
    await page.getByRole('button', { name: 'Contact before' }).focus();
    await page.keyboard.press('n');
    expect(await text('.film-contact p')).toMatch(/^Step 5 of /);
    await page.getByRole('radio', { name: 'touchdown' }).check();
    await page.getByRole('button', { name: /^Sheet of all \d+ touchdowns/ }).click();
    await page.locator('.film-pictures li').nth(5).waitFor();
    expect(await page.locator('.film-pictures img').first().getAttribute('alt')).toMatch(/^touchdown of step 1, /);
    await lookedAt('film');
  });

  test('the tie is kept, the film is not; the best repetition stands beside it at the same step', async () => {
    await page.reload();
    await page.getByText('Tied before: coded-60.webm.').waitFor();
    expect(await page.locator('video').count()).toBe(0);
    await page.locator('input[type=file]').setInputFiles(FILM);
    await page.getByText('Tied by 1 mark').waitFor();
    await expect.poll(pictureNumber).toBe(4);
    await page.getByLabel('Beside').selectOption({ index: 1 });
    await page.locator('.film-panel').nth(1).waitFor();
    await page.locator('.film-panel').nth(1).locator('input[type=file]').setInputFiles(FILM);
    const second = page.locator('.film-panel').nth(1);
    await second.getByRole('button', { name: 'This frame is the touchdown of step 1' }).click();
    await second.getByText('Tied by 1 mark').waitFor();
    await page.getByRole('button', { name: 'Next contact' }).click();
    await second
      .getByText(/the touchdown of step 2/)
      .first()
      .waitFor();
    await lookedAt('film-beside');
  });

  test('the splits of tests are compared over days, strength stands beside sprint time', async () => {
    await open(`/athletes/${wren}/tests`, '.sheet');
    await page.getByRole('heading', { name: 'Over the days' }).waitFor();
    expect(await page.getByText(/^not told: \d times for \d unknowns fit any curve$/).count()).toBe(1);
    await lookedAt('tests');
    await open(`/athletes/${wren}/strength`, '.plot svg');
    expect(await page.getByRole('heading', { name: 'Strength beside sprint time' }).count()).toBe(1);
    await lookedAt('strength');
  });

  test('a photograph beside a rating stands with the note at the focus', async () => {
    const [repetition_id] = last_repetitions;
    const rated = `${server.address}/api/coach/repetitions/${repetition_id}/ratings/contact_time`;
    const body = JSON.stringify({ rating: 4, note: 'lands under the hip' });
    await fetch(rated, { method: 'PUT', body, headers: { 'content-type': 'application/json' } });
    const photo = await page.screenshot({ type: 'jpeg' });
    await fetch(`${rated}/photo`, {
      method: 'PUT',
      body: new Blob([new Uint8Array(photo)]),
      headers: { 'content-type': 'image/jpeg' },
    });
    await open(`/athletes/${wren}/focuses/contact_time`, '.sheet');
    const eye = page.locator('section', { has: page.getByRole('heading', { name: 'Your eye' }) });
    expect(await eye.textContent()).toMatch(/repetition \d+: 4 of 5 “lands under the hip”/);
    await page.locator('.rating-photo').evaluate((picture) => picture.scrollIntoView());
    const width = () => page.locator('.rating-photo').evaluate((picture: HTMLImageElement) => picture.naturalWidth);
    await expect.poll(width).toBeGreaterThan(100);
  });

  test('every page with advice carries its cautions, templates of plans too', async () => {
    const pages = [
      ...['/athletes', `/athletes/${wren}`, `/athletes/${wren}/course`, `/athletes/${wren}/focuses/contact_time`],
      ...[`/athletes/${wren}/tests`, `/athletes/${wren}/strength`, `/athletes/${wren}/person`, '/focuses', '/plan'],
      ...[`/plan/${last_session}`, `/field/${last_session}`, `/sessions/${last_session}`],
      ...[`/sessions/${last_session}/fatigue`, `/repetitions/${last_repetitions[0]}`, '/live'],
      ...[`/reports/month/${wren}/${TODAY.slice(0, 7)}`, `/reports/session/${last_session}/${wren}`],
      ...[`/reports/repetition/${last_repetitions[0]}`, `/compare?kind=blocks&athlete_id=${wren}`],
    ];
    const without: string[] = [];
    for (const path of pages) {
      await page.goto(`${server.address}/#${path}`);
      const cautions = page.getByRole('complementary', { name: 'Cautions' });
      const found = await cautions.waitFor({ timeout: 15_000 }).then(
        () => cautions.textContent(),
        () => null,
      );
      if (!found?.includes('stop, tell an adult, see a clinician')) without.push(path);
      const shown = (await page.locator('main').textContent())!;
      if (/common practice|from memory/i.test(shown)) without.push(`${path} names no source`);
    }
    expect(without).toEqual([]);
  });

  test.each(['athlete', 'session', 'group', 'compare'])('what is printed of %s goes on one page', async (name) => {
    const [path, ready] = {
      athlete: [`/athletes/${wren}`, '.number-now'],
      session: [`/sessions/${last_session}`, '.day-card'],
      group: ['/athletes', '.group-now'],
      compare: [`/compare?kind=blocks&athlete_id=${wren}`, '.compare-table'],
    }[name]!;
    await open(path, ready);
    const margin = { top: '10mm', right: '10mm', bottom: '10mm', left: '10mm' };
    const pdf = await page.pdf({ format: 'A4', margin });
    expect(pdf.toString('latin1').match(/\/Type ?\/Page\b/g)).toHaveLength(1);
  });
});
