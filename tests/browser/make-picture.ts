/**
 * The picture of the README, taken of the demo in a real browser: a repetition of the last session beside what is normal for the
 * athlete. Run it when the page changes: `npm run picture`.
 */
import { statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { openBrowser, openPage } from '../helpers/chromium.ts';
import { startDemoServer } from './coach/demo-server.ts';

const FILE = fileURLToPath(new URL('../../web/pictures/repetition.png', import.meta.url));
/** A README is read over slow networks, too. */
const MOST_BYTES = 150_000;

const [server, browser] = await Promise.all([startDemoServer(), openBrowser()]);
try {
  const page = await openPage(browser);
  page.setDefaultTimeout(60_000);
  await page.setViewportSize({ width: 1100, height: 860 });
  const { n } = server.store.prepare('SELECT max(repetition_id) AS n FROM repetitions').get() as { n: number };
  await page.goto(`${server.address}/#/repetitions/${n}`);
  await page.getByRole('slider').first().waitFor();
  await page.evaluate('document.fonts.ready');
  await page.screenshot({ path: FILE });
} finally {
  await browser.close();
  await server.close();
}
const { size } = statSync(FILE);
process.stdout.write(`${FILE}: ${size} bytes\n`);
if (size > MOST_BYTES) process.exitCode = 1;
