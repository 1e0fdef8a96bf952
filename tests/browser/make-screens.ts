/**
 * Pictures of the pages, upright and on its side on a phone, at 200 % zoom, on a laptop, in both themes and on paper, to be looked at:
 * `npm run screens -- FOLDER [LANGUAGE] [PAGE ...]`. Says which pages are wider than their screen.
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { openBrowser, PHONE } from '../helpers/chromium.ts';
import { startDemoServer } from './coach/demo-server.ts';

const SIZES = {
  phone: PHONE,
  side: { width: 844, height: 390 },
  zoomed: { width: PHONE.width / 2, height: PHONE.height / 2 },
  laptop: { width: 1280, height: 800 },
};
const [folder, language = 'en', ...wanted] = process.argv.slice(2);
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
  const ofAthlete = `/athletes/${latest.athlete_id}`;
  const pages = {
    sessions: '/sessions',
    field: `/field/${latest.session_id}`,
    repetition: `/repetitions/${latest.repetition_id}`,
    session: `/sessions/${latest.session_id}`,
    fatigue: `/sessions/${latest.session_id}/fatigue`,
    athletes: '/athletes',
    athlete: ofAthlete,
    course: `${ofAthlete}/course`,
    tests: `${ofAthlete}/tests`,
    strength: `${ofAthlete}/strength`,
    person: `${ofAthlete}/person`,
    focus: `${ofAthlete}/focuses/contact_time`,
    focuses: '/focuses',
    compare: `/compare?kind=sessions&a=${latest.athlete_id}.${latest.session_id}`,
    film: `/repetitions/${latest.repetition_id}/film`,
    report: `/reports/repetition/${latest.repetition_id}`,
    plan: `/plan/${latest.session_id}`,
    live: '/live',
    captures: '/captures',
    describe: '/describe',
    files: '/files',
    layouts: '/layouts',
    research: '/research',
    agreement: '/agreement',
    devices: '/devices',
    settings: '/settings',
  };
  for (const [size, viewport] of Object.entries(SIZES)) {
    for (const colorScheme of ['light', 'dark'] as const) {
      const context = await browser.newContext({ viewport, colorScheme, locale: language, timezoneId: 'UTC' });
      const page = await context.newPage();
      for (const [name, path] of Object.entries(pages)) {
        if (wanted.length > 0 && !wanted.includes(name)) continue;
        await page.goto(`${server.address}/#${path}`);
        await page.locator('main h1').first().waitFor();
        // The live page never falls silent.
        await page.waitForLoadState('networkidle', { timeout: 5000 }).catch(() => undefined);
        await page.evaluate('document.fonts.ready');
        const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        if (over > 0) process.stdout.write(`${name} at ${viewport.width} px is ${over} px too wide\n`);
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
