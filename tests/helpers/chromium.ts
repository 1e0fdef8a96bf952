import { existsSync } from 'node:fs';
import { type Browser, chromium, type Page } from 'playwright-core';

const PLACES = [
  process.env.CINDERLANE_CHROMIUM,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/opt/google/chrome/chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

/** Path of a Chromium on this machine; null where there is none. */
export const CHROMIUM_PATH = PLACES.find((path) => path && existsSync(path)) ?? null;

/** What to say when browser tests cannot run. */
export const CHROMIUM_MISSING =
  'browser tests need Chromium: install it (Debian: apt-get install chromium) or set CINDERLANE_CHROMIUM to its path';

// Nothing but the view may be reached, so everything that a browser does by itself is off.
export const CHROMIUM_FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** The widths that every page must fit: a phone and a laptop. */
export const PHONE = { width: 390, height: 844 };
export const LAPTOP = { width: 1366, height: 768 };

/** A browser with a fresh profile. */
export function openBrowser(): Promise<Browser> {
  if (!CHROMIUM_PATH) throw new Error(CHROMIUM_MISSING);
  return chromium.launch({ executablePath: CHROMIUM_PATH, args: CHROMIUM_FLAGS });
}

/** A page of laptop size, in English and UTC wherever the test runs; what does not come within seconds fails. */
export async function openPage(browser: Browser): Promise<Page> {
  const page = await browser.newPage({ viewport: LAPTOP, locale: 'en-GB', timezoneId: 'UTC' });
  page.setDefaultTimeout(60_000);
  return page;
}

/** What a page complains of, from now on: errors that nobody caught and errors on its console. Grows while the page is used. */
export function complaintsOf(page: Page): string[] {
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  return complaints;
}
