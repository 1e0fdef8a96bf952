import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { axeFindings } from '../../helpers/axe.ts';
import { PHONE } from '../../helpers/chromium.ts';

/** Where pictures go when asked for, to be looked at. */
const PICTURES = process.env.CINDERLANE_PICTURES;

export const LAPTOP = { width: 1280, height: 800 };
/** A laptop's window at 200 %. */
const ZOOMED = { width: 640, height: 400 };

/**
 * The page as it stands: within its width at both sizes and at 200 % zoom, in both themes, without a complaint and with nothing
 * for axe to say; a picture of each where asked for. The page is a laptop's and light again afterwards.
 * @param complaints what the browser complained about since the last look; emptied
 */
export async function lookAt(page: Page, name: string, complaints: string[]): Promise<void> {
  for (const [size, viewport] of Object.entries({ phone: PHONE, laptop: LAPTOP, zoomed: ZOOMED })) {
    await page.setViewportSize(viewport);
    for (const theme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme: theme });
      await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(resolve)));
      if (PICTURES) await page.screenshot({ path: `${PICTURES}/${name}-${size}-${theme}.png`, fullPage: true });
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
}
