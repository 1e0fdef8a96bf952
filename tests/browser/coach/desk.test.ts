/**
 * A coach at a desk, in a real browser: how an athlete stands, a session, the group, a comparison, tests, strength. With
 * CINDERLANE_PICTURES=DIR it leaves a picture of every page at both sizes and in both themes, to be looked at.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { addFocus } from '../../../api/coach/athlete-records.ts';
import { addStrengthRecord } from '../../../api/coach/tests/strength-log.ts';
import { addSprintTest } from '../../../api/coach/tests/sprint-tests.ts';
import { addDays, localDate } from '../../../shared/dates.ts';
import { makeAthlete, makeRepetition, makeSession } from '../../api/coach/make-club.ts';
import { CHROMIUM_MISSING, CHROMIUM_PATH, openBrowser, openPage, complaintsOf } from '../../helpers/chromium.ts';
import { startViewServer, type ViewServer } from '../../helpers/view-server.ts';
import { LAPTOP, lookAt } from './look-at.ts';

const TODAY = localDate(new Date());
const FOCUS_FROM = addDays(TODAY, -21);
const DAYS = [0.6, -0.4, 0.3, -0.7, 0.5, -0.2, 0.1, -0.5];
describe.skipIf(!CHROMIUM_PATH)(CHROMIUM_PATH ? 'a coach at a desk' : CHROMIUM_MISSING, () => {
  let server: ViewServer;
  let browser: Browser;
  let page: Page;
  let wren = 0;
  let last_session = 0;
  const last_repetitions: number[] = [];
  let complaints: string[] = [];

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
    complaints = complaintsOf(page);
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

  const lookedAt = (name: string) => lookAt(page, `desk-${name}`, complaints);

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

  test.each(['athlete', 'session', 'group', 'compare', 'focus'])(
    'what is printed of %s goes on one page',
    async (name) => {
      const [path, ready] = {
        athlete: [`/athletes/${wren}`, '.number-now'],
        session: [`/sessions/${last_session}`, '.day-card'],
        group: ['/athletes', '.group-now'],
        compare: [`/compare?kind=blocks&athlete_id=${wren}`, '.compare-table'],
        focus: [`/athletes/${wren}/focuses/contact_time`, '.focus-eye'],
      }[name]!;
      await open(path, ready);
      const margin = { top: '10mm', right: '10mm', bottom: '10mm', left: '10mm' };
      const pdf = await page.pdf({ format: 'A4', margin });
      expect(pdf.toString('latin1').match(/\/Type ?\/Page\b/g)).toHaveLength(1);
    },
  );
});
