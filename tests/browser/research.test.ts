import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CHROMIUM_MISSING, CHROMIUM_PATH, openBrowser, openPage } from '../helpers/chromium.ts';
import { startViewServer, type ViewServer } from '../helpers/view-server.ts';

describe.skipIf(!CHROMIUM_PATH)(CHROMIUM_PATH ? 'research in a browser' : CHROMIUM_MISSING, () => {
  let server: ViewServer;
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    [server, browser] = await Promise.all([startViewServer(), openBrowser()]);
    page = await openPage(browser);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });
  const open = (path: string) => page.goto(`${server.address}/#${path}`);

  test('a scientist is told that nobody agreed yet, records consent, and saves an export', async () => {
    await open('/research');
    await page.getByRole('button', { name: 'Make export' }).click();
    await page.getByRole('alert').filter({ hasText: 'consent' }).waitFor();
    await page.getByLabel('Consent of Wren Abara').selectOption('given');
    await page.getByText(/^since /).waitFor();
    await page.getByRole('button', { name: 'Make export' }).click();
    await page.getByText(/1 athletes, 2 repetitions/).waitFor();
    const [saved] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('link', { name: 'Save the archive' }).click(),
    ]);
    expect(saved.suggestedFilename()).toMatch(/^cinderlane-tables-\d+\.zip$/);
    await page.getByRole('region', { name: 'Exports made' }).locator('tbody tr').first().waitFor();
  });

  test('reference contacts are compared, with plot and figures; a broken file says where', async () => {
    const [id] = server.repetition_ids;
    const answer = await fetch(`${server.address}/api/repetitions/${id}/steps.csv`);
    const [header, ...rows] = (await answer.text()).trim().split('\n');
    const at = (name: string) => header.split(',').indexOf(name);
    // A reference that reads every contact 5 ms shorter than ours: the bias must come out as +5.0.
    const reference = rows
      .map((row) => row.split(','))
      .map((cells) => {
        const off = cells[at('toe_off_s')];
        return `${cells[at('side')]},${cells[at('touchdown_s')]},${off === '' ? '' : Number(off) - 0.005}`;
      });
    const file = (name: string, text: string) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });
    await open('/agreement');
    const csv = ['side,touchdown_s,toe_off_s', ...reference].join('\n');
    await page.getByLabel('Reference files').setInputFiles(file(`plate-${id}.csv`, csv));
    await page.getByRole('button', { name: 'Compare', exact: true }).click();
    await page.getByText(`${rows.length} of ${rows.length} reference contacts found, 0 missed`).waitFor();
    const table = page.getByRole('region', { name: 'Agreement of contact time' });
    expect(await table.locator('tbody tr').first().textContent()).toContain('5.0');
    expect(await page.getByRole('img', { name: /contact time: differences/ }).count()).toBe(1);
    await page.getByRole('button', { name: /Remove/ }).click();
    await page.getByLabel('Reference files').setInputFiles(file(`plate-${id}.csv`, 'side,touchdown_s\nleft,soon'));
    await page.getByRole('button', { name: 'Compare', exact: true }).click();
    await page.getByRole('alert').filter({ hasText: 'line 2' }).waitFor();
  });

  test('repeatability asks for more sessions where there is one', async () => {
    await open('/agreement');
    await page.getByRole('button', { name: 'Compare sessions' }).click();
    await page.getByRole('alert').filter({ hasText: 'needs two such athletes' }).waitFor();
  });
});
