import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CHROMIUM_MISSING, CHROMIUM_PATH, openBrowser, openPage } from '../helpers/chromium.ts';
import { countsWithoutUnit } from '../helpers/counts-file.ts';
import { recordingFiles, startViewServer, type ViewServer } from '../helpers/view-server.ts';

describe.skipIf(!CHROMIUM_PATH)(CHROMIUM_PATH ? 'files brought in through the page' : CHROMIUM_MISSING, () => {
  let server: ViewServer;
  let browser: Browser;
  let page: Page;
  const files = recordingFiles(21);

  beforeAll(async () => {
    [server, browser] = await Promise.all([startViewServer(), openBrowser()]);
    page = await openPage(browser);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  const file = (name: string, text: string) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });
  const openForm = async () => {
    await page.goto(`${server.address}/#/files?session_id=${server.session_id}`);
    await page.reload();
    await page.getByRole('combobox', { name: 'Athlete' }).selectOption({ label: 'Wren Abara' });
  };

  test('two files become a repetition whose result shows on the same page', async () => {
    await openForm();
    await page
      .getByLabel('Sensor files')
      .setInputFiles([file('fast 3 right.csv', files.right), file('fast 3 left.csv', files.left)]);
    const slots = page.locator('.file-slots');
    expect(await slots.textContent()).toMatch(/left\s*fast 3 left.csv.*right\s*fast 3 right.csv/);
    await page.getByLabel('Course', { exact: true }).fill('40');
    await page.getByRole('combobox', { name: 'Unit' }).selectOption('yd');
    await page.getByLabel('Time, s').fill(files.time_s.toFixed(2));
    await page.getByRole('button', { name: 'Measure' }).click();
    const card = page.locator('.result-card');
    await card.getByRole('heading', { name: 'Wren Abara, repetition 3' }).waitFor();
    await card.locator('.marker').first().waitFor();
    expect(await card.locator('.headline').textContent()).toMatch(/\d+ ms/);
    expect(page.url()).toContain('#/files');
  });

  test('the same files a second time are recognised and not doubled', async () => {
    await openForm();
    await page.getByLabel('Sensor files').setInputFiles([file('left.csv', files.left), file('right.csv', files.right)]);
    await page.getByRole('button', { name: 'Measure' }).click();
    await page.getByText('Nothing was doubled').waitFor();
  });

  test('a file that is no recording is refused with where, what and what to do, and stores nothing', async () => {
    const before = await (await fetch(`${server.address}/api/sessions/${server.session_id}`)).json();
    await openForm();
    await page.getByLabel('Sensor files').setInputFiles([file('notes.txt', 'rain, no session today\n')]);
    await page.getByRole('button', { name: 'Measure' }).click();
    const fault = page.getByRole('alert').filter({ hasText: 'notes.txt' });
    await fault.waitFor();
    expect(await fault.textContent()).toContain('What to do');
    const after = await (await fetch(`${server.address}/api/sessions/${server.session_id}`)).json();
    expect(after).toEqual(before);
  });

  test('several recordings at once are paired by their names and measured one by one', async () => {
    await openForm();
    const second = recordingFiles(22);
    const third = recordingFiles(23);
    await page
      .getByLabel('Sensor files')
      .setInputFiles([
        file('a_L.csv', second.left),
        file('b_L.csv', third.left),
        file('a_R.csv', second.right),
        file('b_R.csv', third.right),
      ]);
    expect(await page.locator('.file-set').count()).toBe(2);
    await page.getByLabel('Its athlete').first().selectOption({ label: 'Wren Abara' });
    await page.getByRole('button', { name: 'Measure 2 recordings' }).click();
    await expect.poll(() => page.locator('.result-card .headline').count(), { timeout: 60_000 }).toBe(2);
  });

  test('a file that can be read in several ways asks which, and the answer can be kept for the next', async () => {
    await openForm();
    await page.getByLabel('Sensor files').setInputFiles([file('counts left.csv', countsWithoutUnit())]);
    await page.getByRole('button', { name: 'Measure' }).click();
    await page.getByText('Which is right?').waitFor();
    await page.getByRole('button', { name: /4096/ }).click();
    await page.getByLabel('Keep your answer').fill('The club logger');
    await page.getByRole('button', { name: 'Keep', exact: true }).click();
    await page.getByText('Kept as "The club logger"').waitFor();
    await page.goto(`${server.address}/#/layouts`);
    await page.getByRole('strong').filter({ hasText: 'The club logger' }).waitFor();
    await page.getByRole('button', { name: 'Delete The club logger' }).click();
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('strong').filter({ hasText: 'The club logger' }).waitFor();
  });

  test('without a file or an athlete the form says what is missing', async () => {
    await page.goto(`${server.address}/#/files`);
    await page.reload();
    await page.getByRole('button', { name: 'Measure' }).click();
    await page.getByText('Choose or drop at least one file.').waitFor();
  });
});
