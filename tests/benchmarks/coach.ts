/**
 * `npm run bench:coach [-- ATHLETES WEEKS]`: how fast the coach's screens are with a year of data for 30 athletes. Prints every figure and ends
 * with an error when one misses its limit: first view 1 s, each interaction 100 ms.
 */
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { build } from 'vite';
import { addDays } from '../../shared/dates.ts';
import { startServer } from '../../api/server/server.ts';
import { openBrowser, PHONE } from '../helpers/chromium.ts';
import { fillYear, type YearOfData } from './year-of-data.ts';

const FIRST_VIEW_MS = 1000;
const INTERACTION_MS = 100;
const REPEATS = 7;
const ATHLETES = Number(process.argv[2] ?? 30);
const WEEKS = Number(process.argv[3] ?? 52);
const row = (place: number) => `.athlete-strip li:nth-child(${place}) button`;
const score = (points: number) => `.scores label:nth-child(${points}) input`;

interface Figure {
  what: string;
  median_ms: number;
  worst_ms: number;
  limit_ms: number;
}

const folder = mkdtempSync(join(tmpdir(), 'cinderlane-bench-'));
try {
  const web_folder = join(folder, 'web');
  const config = fileURLToPath(new URL('../../web/vite.config.ts', import.meta.url));
  await build({ configFile: config, logLevel: 'error', build: { outDir: web_folder } });
  const server = await startServer({ data_folder: join(folder, 'data'), web_folder, port: 0 });
  const began = performance.now();
  const year = fillYear(server.store, new Date().toISOString().slice(0, 10), ATHLETES, WEEKS);
  const seconds = ((performance.now() - began) / 1000).toFixed(0);
  const size = (statSync(server.store.file).size / 1e6).toFixed(0);
  console.log(
    `${year.athletes} athletes, ${year.sessions} sessions, ${year.repetitions} repetitions: ${size} MB, written in ${seconds} s, load ${loadavg()[0].toFixed(1)} on this machine\n`,
  );
  const figures: Figure[] = [];
  const tell = (entry: Figure) => {
    figures.push(entry);
    print(entry);
  };
  await answers(server.address, year, tell);
  await screens(server.address, year, tell);
  await server.close();
  process.exitCode = figures.some((figure) => figure.median_ms > figure.limit_ms) ? 1 : 0;
} finally {
  rmSync(folder, { recursive: true, force: true });
}

function print({ what, median_ms, worst_ms, limit_ms }: Figure): void {
  const times = `${median_ms.toFixed(0).padStart(5)} ms  worst ${worst_ms.toFixed(0).padStart(5)}  limit ${limit_ms}`;
  console.log(`${what.padEnd(52)} ${times}${median_ms <= limit_ms ? '' : '  <- beyond its limit'}`);
}

function figure(what: string, times: number[], limit_ms: number): Figure {
  const sorted = [...times].sort((a, b) => a - b);
  return { what, median_ms: sorted[Math.floor(sorted.length / 2)], worst_ms: sorted.at(-1)!, limit_ms };
}

/** What the server takes for each view. */
async function answers(address: string, year: YearOfData, tell: (figure: Figure) => void): Promise<void> {
  const id = year.athlete_ids[4];
  const today = new Date().toISOString().slice(0, 10);
  const month = today.slice(0, 7);
  const paths = [
    `/coach/sessions/${year.tonight}/field`,
    `/coach/sessions/${year.tonight}/fatigue`,
    `/coach/sessions/${year.tonight}/plan`,
    '/coach/athletes',
    '/coach/standing',
    `/coach/sessions/${year.tonight}/verdicts`,
    `/coach/athletes/${id}/now`,
    `/coach/comparison?kind=blocks&a=${id}.${addDays(today, -120)}.${addDays(today, -61)}&b=${id}.${addDays(today, -60)}.${today}`,
    `/coach/athletes/${id}`,
    `/coach/athletes/${id}/course`,
    `/coach/athletes/${id}/focuses/rhythm`,
    `/coach/athletes/${id}/sprint-tests`,
    `/coach/reports/month/${id}/${month}`,
    '/sessions',
  ];
  for (const path of paths) {
    const times: number[] = [];
    for (let k = 0; k < REPEATS; k++) {
      // A write before each question, as between repetitions: nothing is answered from memory.
      const rating = JSON.stringify({ rating: (k % 5) + 1, note: '' });
      const headers = { 'content-type': 'application/json' };
      await fetch(`${address}/api/coach/repetitions/1/ratings/arms`, { method: 'PUT', body: rating, headers });
      const began = performance.now();
      const answer = await fetch(`${address}/api${path}`);
      await answer.arrayBuffer();
      if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
      times.push(performance.now() - began);
    }
    tell(figure(`answer  ${path.replace(/\?.*/, '').replace(/\d+/g, 'N')}`, times, INTERACTION_MS));
  }
}

/** What a coach with a phone waits for. */
async function screens(address: string, year: YearOfData, tell: (figure: Figure) => void): Promise<void> {
  const browser = await openBrowser();
  try {
    for (const [what, hash, ready] of [
      ['field', `#/field/${year.tonight}`, '.athlete-card .judged'],
      ['athletes', '#/athletes', '.athlete-line'],
      ['athlete', `#/athletes/${year.athlete_ids[4]}`, '.number-now'],
      ['over time', `#/athletes/${year.athlete_ids[4]}/course`, '.plot svg'],
      ['sessions', '#/sessions', '.line'],
    ]) {
      const times: number[] = [];
      for (let k = 0; k < 5; k++) {
        const page = await phone(browser);
        await page.goto(`${address}/${hash}`);
        times.push(await shownAfter(page, ready));
        await page.close();
      }
      tell(figure(`first view  ${what}`, times, FIRST_VIEW_MS));
    }
    const page = await phone(browser);
    await page.goto(`${address}/#/field/${year.tonight}`);
    await page.waitForSelector('.athlete-card .judged');
    tell(await interaction(page, 'next athlete', '.field-steps .primary', '.card-head h2'));
    tell(await interaction(page, 'an athlete of the row', row(11), '.card-head h2', row(3)));
    tell(await interaction(page, 'a rating', score(4), '.athlete-card .scores', score(2)));
    await page.goto(`${address}/#/athletes/${year.athlete_ids[4]}/course`);
    await page.waitForSelector('.plot svg');
    tell(await choice(page, 'another quantity over time', 'step_rate_hz', 'contact_time_ms'));
    await page.goto(`${address}/#/plan/${year.tonight}`);
    await page.waitForSelector('.plan-set');
    tell(await typing(page));
  } finally {
    await browser.close();
  }
}

/** A page of phone size. tsx names inner functions with a helper that the page does not have. */
async function phone(browser: Browser): Promise<Page> {
  const page = await browser.newPage({ viewport: PHONE });
  await page.addInitScript('globalThis.__name = (target) => target');
  return page;
}

/** Milliseconds from the start of the navigation until the selector is on screen and painted. */
function shownAfter(page: Page, selector: string): Promise<number> {
  return page.evaluate(
    (wanted) =>
      new Promise<number>((resolve) => {
        const look = () =>
          document.querySelector(wanted)
            ? requestAnimationFrame(() => setTimeout(() => resolve(performance.now())))
            : requestAnimationFrame(look);
        look();
      }),
    selector,
  );
}

/** From a click until the watched text or choice has changed and was painted; two places are clicked in turn. */
async function interaction(page: Page, what: string, first: string, watched: string, second = first): Promise<Figure> {
  const times: number[] = [];
  for (let k = 0; k < REPEATS; k++) {
    times.push(await page.evaluate(clickAndWatch, { click: k % 2 === 0 ? first : second, watch: watched }));
    await page.waitForTimeout(60);
  }
  return figure(`interaction  ${what}`, times, INTERACTION_MS);
}

function clickAndWatch({ click, watch }: { click: string; watch: string }): Promise<number> {
  return new Promise((resolve, reject) => {
    const shown = () => {
      const chosen = [...document.querySelectorAll(`${watch} input`)].map(
        (input) => (input as HTMLInputElement).checked,
      );
      return `${document.querySelector(watch)?.textContent} ${chosen}`;
    };
    const before = shown();
    const began = performance.now();
    (document.querySelector(click) as HTMLElement).click();
    const look = () => {
      if (shown() !== before) {
        requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - began)));
      } else if (performance.now() - began > 3000) reject(new Error(`${watch} did not change`));
      else setTimeout(look);
    };
    look();
  });
}

async function choice(page: Page, what: string, first: string, second: string): Promise<Figure> {
  const times: number[] = [];
  for (let k = 0; k < REPEATS; k++) {
    times.push(
      await page.evaluate(
        (value) =>
          new Promise<number>((resolve) => {
            const before = document.querySelector('.sheet h2')?.textContent;
            const select = document.querySelector('select') as HTMLSelectElement;
            const began = performance.now();
            select.value = value;
            select.dispatchEvent(new Event('change', { bubbles: true }));
            const look = () =>
              document.querySelector('.sheet h2')?.textContent !== before
                ? requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - began)))
                : setTimeout(look);
            look();
          }),
        k % 2 === 0 ? first : second,
      ),
    );
    await page.waitForTimeout(60);
  }
  return figure(`interaction  ${what}`, times, INTERACTION_MS);
}

/** A number of the plan is changed: how long until the set's own heading says so. */
async function typing(page: Page): Promise<Figure> {
  const times: number[] = [];
  for (let k = 0; k < REPEATS; k++) {
    times.push(
      await page.evaluate(
        (value) =>
          new Promise<number>((resolve) => {
            const input = document.querySelectorAll('.plan-set input')[0] as HTMLInputElement;
            const before = document.querySelector('.plan-set h3')?.textContent;
            const began = performance.now();
            input.value = value;
            input.dispatchEvent(new Event('input', { bubbles: true }));
            const look = () =>
              document.querySelector('.plan-set h3')?.textContent !== before
                ? requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - began)))
                : setTimeout(look);
            look();
          }),
        k % 2 === 0 ? '4' : '5',
      ),
    );
    await page.waitForTimeout(150);
  }
  return figure('interaction  a number of the plan', times, INTERACTION_MS);
}
