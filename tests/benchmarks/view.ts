/**
 * Prints how fast the view is in a real browser: first view of each page, and interactions from the press to the painted frame.
 * `npm run bench:view` starts a server of its own with a year of 30 athletes beside two recorded repetitions;
 * `-- --address http://127.0.0.1:7100` measures a running one with its data. Ends with an error when a limit is missed.
 */
import { loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import type { Page } from 'playwright-core';
import type { SessionList, SessionWithRepetitions } from '../../shared/schemas/session.ts';
import type { Static } from 'typebox';
import type { Store } from '../../api/store/store.ts';
import { framesWhileDragging, lengthenRecordings } from './drag-signal.ts';
import { fillYear } from './year-of-data.ts';
import { openBrowser, openPage, PHONE } from '../helpers/chromium.ts';
import { recordingFiles, startViewServer } from '../helpers/view-server.ts';

const REPEATS = 5;
const TARGET = { view_ms: 1000, interaction_ms: 100, paint_ms: 600, frame_ms: 1000 / 60 };
/** A phone's processor, as against this one. */
const SLOWER = 4;
const LONG_SAMPLES = 1_000_000;
const DRAG_S = 4;
/** A frame that comes late by less than this has come in time: the clock of a page is that coarse. */
const COARSE_MS = 0.5;

const { values } = parseArgs({ options: { address: { type: 'string' } } });
const own = values.address ? null : await startViewServer();
if (own) fillYear(own.store, new Date().toISOString().slice(0, 10));
const address = values.address ?? own!.address;
const browser = await openBrowser();
const page = await openPage(browser);

const { items } = (await (await fetch(`${address}/api/sessions`)).json()) as Static<typeof SessionList>;
const busiest = items.reduce((a, b) => (b.analysed_count > a.analysed_count ? b : a));
const session = (await (await fetch(`${address}/api/sessions/${busiest.session_id}`)).json()) as Static<
  typeof SessionWithRepetitions
>;
const repetition_id =
  own?.repetition_ids.at(-1) ?? session.repetitions.filter((line) => line.state === 'analysed').at(-1)!.repetition_id;
console.log(
  `${items.length} sessions; the session measured holds ${session.repetitions.length} repetitions; load ${loadavg()[0].toFixed(1)}\n`,
);

const rows: { what: string; median_ms: number; target_ms: number }[] = [];
const PAGES = {
  sessions: ['#/sessions', '.line'],
  field: [`#/field/${session.session_id}`, '.athlete-card .judged'],
  session: [`#/sessions/${session.session_id}`, '.day-card'],
  repetition: [`#/repetitions/${repetition_id}`, '.plot .marker'],
  'files in': ['#/files', 'input[type=file]'],
} as const;
for (const slower of [1, SLOWER]) {
  rows.push({
    what: `first contentful paint, processor ${slower} times slower`,
    median_ms: await medianOf(() => firstPaint(slower)),
    target_ms: TARGET.paint_ms,
  });
}
for (const [name, [hash, shown]] of Object.entries(PAGES)) {
  rows.push({
    what: `first view: ${name}`,
    median_ms: await medianOf(() => firstView(hash, shown)),
    target_ms: TARGET.view_ms,
  });
}

await page.setViewportSize(PHONE);
await page.goto(`${address}/${PAGES.repetition[0]}`);
await page.locator('canvas').first().waitFor();
const presses = {
  'by distance': () => press('input[value=distance]'),
  'by step': () => press('input[value=step]'),
  'another quantity': () => press('input[value=speed_mps]'),
  'back to contact time': () => press('input[value=contact_time_ms]'),
  'all columns of the table': () => press('button[aria-pressed]'),
  'next contact by key': () => key('.plot[role=slider]', 'ArrowRight'),
  'zoom the signal by key': () => key('.signal', '+'),
  'move the signal by key': () => key('.signal', 'ArrowRight'),
};
for (const [name, act] of Object.entries(presses)) {
  rows.push({ what: name, median_ms: await medianOf(act), target_ms: TARGET.interaction_ms });
}
await page.goto(`${address}/${PAGES.field[0]}`);
await page.locator('.athlete-card .scores').waitFor();
const fieldPresses = {
  'field: next athlete': () => press('.field-steps .primary'),
  'field: rate 4': () => press('.scores label:nth-of-type(4) input'),
  'field: start or stop the watch': () => press('.stopwatch'),
};
for (const [name, act] of Object.entries(fieldPresses)) {
  rows.push({ what: name, median_ms: await medianOf(act), target_ms: TARGET.interaction_ms });
}
rows.push({
  what: 'a corrected column, to what comes out',
  median_ms: await correctColumns(),
  target_ms: TARGET.view_ms,
});
if (own) rows.push(...(await dragLongSignal(own.store, own.repetition_ids[0])));
console.table(rows);
process.exitCode = rows.some((row) => row.median_ms > row.target_ms) ? 1 : 0;
await browser.close();
await own?.close();

/** From the request of the page to its content standing in it, with an empty cache. */
async function firstView(hash: string, shown: string): Promise<number> {
  const fresh: Page = await openPage(browser);
  const begin = performance.now();
  await fresh.goto(`${address}/${hash}`, { waitUntil: 'commit' });
  await fresh.locator(shown).first().waitFor();
  const took = performance.now() - begin;
  await fresh.close();
  return took;
}

/** Makes the processor of a page slower. */
async function slowDown(slowed: Page, times: number): Promise<void> {
  const session = await slowed.context().newCDPSession(slowed);
  await session.send('Emulation.setCPUThrottlingRate', { rate: times });
}

/** From the request of the first page to the first words on screen, with an empty cache. */
async function firstPaint(slower: number): Promise<number> {
  const fresh = await openPage(browser);
  await slowDown(fresh, slower);
  await fresh.goto(`${address}/${PAGES.sessions[0]}`);
  await fresh.locator(PAGES.sessions[1]).first().waitFor();
  const painted = await fresh.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0].startTime);
  await fresh.close();
  return painted;
}

/** Signals of a million samples a foot, dragged by a finger on a phone's processor, each as it is first shown and whole. */
async function dragLongSignal(store: Store, repetition: number) {
  lengthenRecordings(store, repetition, LONG_SAMPLES);
  const phone = await openPage(browser);
  await phone.setViewportSize(PHONE);
  await phone.goto(`${address}/#/repetitions/${repetition}`);
  await phone.locator('.signal canvas').nth(1).waitFor();
  await slowDown(phone, SLOWER);
  const dragged: typeof rows = [];
  for (const [what, zoom] of [
    ['dragging the running of it', null],
    ['dragging most of a million samples', 'All'],
  ] as const) {
    if (zoom) {
      await phone.getByRole('button', { name: zoom, exact: true }).click();
      await phone.getByRole('button', { name: 'Closer' }).click();
      await phone.waitForLoadState('networkidle');
    }
    const frames = await framesWhileDragging(phone, '.signal', DRAG_S);
    const at = (share: number) => frames[Math.floor(share * (frames.length - 1))];
    console.log(
      `${what}: ${(frames.length / DRAG_S).toFixed(0)} frames a second, between frames ${at(0.5).toFixed(1)} ms, of 95 % at most ${at(0.95).toFixed(1)}, longest ${at(1).toFixed(1)}`,
    );
    dragged.push({
      what: `${what}, processor ${SLOWER} times slower: 95 % of frames`,
      median_ms: Math.round(10 * at(0.95)) / 10,
      target_ms: Math.round(10 * (TARGET.frame_ms + COARSE_MS)) / 10,
    });
  }
  await phone.close();
  return dragged;
}

/** From the press to the frame after the one it changed. */
function press(selector: string): Promise<number> {
  return page.evaluate(async (target) => {
    const begin = performance.now();
    document.querySelector<HTMLElement>(target)!.click();
    await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
    return performance.now() - begin;
  }, selector);
}

function key(selector: string, name: string): Promise<number> {
  return page.evaluate(
    async ([target, pressed]) => {
      const begin = performance.now();
      const event = new KeyboardEvent('keydown', { key: pressed, bubbles: true, cancelable: true });
      document.querySelector(target)!.dispatchEvent(event);
      await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
      return performance.now() - begin;
    },
    [selector, name],
  );
}

/** From a changed sign to the answer that shows what it does, with a file larger than what is looked at of one. */
async function correctColumns(): Promise<number> {
  await page.goto(`${address}/#/files`);
  const [names, ...rows] = recordingFiles(41).left.trim().split('\n');
  const last = Number(rows.at(-1)!.split(',')[0]) + 0.002;
  const again = (k: number) => rows.map((row) => row.replace(/^[^,]+/, (time) => (Number(time) + k * last).toFixed(4)));
  const text = [names, ...Array.from({ length: 13 }, (_, k) => again(k)).flat()].join('\n');
  const buffer = Buffer.from(text);
  console.log(`the file that is corrected holds ${(buffer.length / 2 ** 20).toFixed(1)} MiB`);
  await page.getByLabel('Sensor files').setInputFiles({ name: 'long left.csv', mimeType: 'text/csv', buffer });
  await page.getByRole('button', { name: 'Look at the columns' }).click();
  const outcome = page.locator('.layout-outcome [role=status]');
  const settled = () => outcome.filter({ hasNotText: 'Reading' }).waitFor();
  await settled();
  return medianOf(async () => {
    const begin = performance.now();
    await page.getByLabel('sign turned of acc_x_g').click();
    await outcome.filter({ hasText: 'Reading' }).waitFor();
    await settled();
    return performance.now() - begin;
  });
}

async function medianOf(measure: () => Promise<number>): Promise<number> {
  const times: number[] = [];
  for (let i = 0; i < REPEATS; i++) times.push(await measure());
  return Math.round(times.sort((a, b) => a - b)[Math.floor(REPEATS / 2)]);
}
