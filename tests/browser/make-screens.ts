/**
 * Pictures of the main pages, upright and on its side on a phone, on a laptop, in both themes and on paper, to be looked at:
 * `npm run screens -- FOLDER`.
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { openBrowser, PHONE } from '../helpers/chromium.ts';
import { startDemoServer } from './coach/demo-server.ts';

const SIZES = { phone: PHONE, side: { width: 844, height: 390 }, laptop: { width: 1280, height: 800 } };
const folder = process.argv[2];
if (!folder) {
  process.stderr.write('Say where the pictures go: npm run screens -- FOLDER\n');
  process.exit(2);
}
mkdirSync(folder, { recursive: true });

const [server, browser] = await Promise.all([startDemoServer(), openBrowser()]);
try {
  const latest = server.store
    .prepare('SELECT repetition_id, session_id, athlete_id FROM repetitions ORDER BY repetition_id DESC LIMIT 1')
    .get() as { repetition_id: number; session_id: number; athlete_id: number };
  const pages = {
    sessions: '/sessions',
    field: `/field/${latest.session_id}`,
    repetition: `/repetitions/${latest.repetition_id}`,
    session: `/sessions/${latest.session_id}`,
    athlete: `/athletes/${latest.athlete_id}`,
    course: `/athletes/${latest.athlete_id}/course`,
    plan: `/plan/${latest.session_id}`,
    live: '/live',
    files: '/files',
    settings: '/settings',
  };
  for (const [size, viewport] of Object.entries(SIZES)) {
    for (const colorScheme of ['light', 'dark'] as const) {
      const context = await browser.newContext({ viewport, colorScheme, locale: 'en-GB', timezoneId: 'UTC' });
      const page = await context.newPage();
      for (const [name, path] of Object.entries(pages)) {
        await page.goto(`${server.address}/#${path}`);
        await page.locator('main h1').first().waitFor();
        // The live page never falls silent.
        await page.waitForLoadState('networkidle', { timeout: 5000 }).catch(() => undefined);
        await page.evaluate('document.fonts.ready');
        await page.screenshot({ path: join(folder, `${name}-${size}-${colorScheme}.png`) });
        if (size === 'laptop' && colorScheme === 'dark') {
          await page.pdf({ path: join(folder, `${name}.pdf`), format: 'A4' });
        }
      }
      await context.close();
    }
  }
} finally {
  await browser.close();
  await server.close();
}
process.stdout.write(`pictures in ${folder}\n`);
