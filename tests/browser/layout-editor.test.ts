import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { SavedLayout } from '../../shared/schemas/saved-layout.ts';
import { axeFindings } from '../helpers/axe.ts';
import { CHROMIUM_MISSING, CHROMIUM_PATH, LAPTOP, openBrowser, openPage, PHONE } from '../helpers/chromium.ts';
import { countsWithoutUnit } from '../helpers/counts-file.ts';
import { smallTargets } from '../helpers/small-targets.ts';
import { recordingFiles, startViewServer, type ViewServer } from '../helpers/view-server.ts';

describe.skipIf(!CHROMIUM_PATH)(CHROMIUM_PATH ? 'how a file is read, and putting it right' : CHROMIUM_MISSING, () => {
  let server: ViewServer;
  let browser: Browser;
  let page: Page;
  const complaints: string[] = [];
  const files = recordingFiles(31);

  beforeAll(async () => {
    [server, browser] = await Promise.all([startViewServer(), openBrowser()]);
    page = await openPage(browser);
    page.on('pageerror', (error) => complaints.push(error.message));
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  const file = (name: string, text: string) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });
  const drop = async (...dropped: ReturnType<typeof file>[]) => {
    await page.goto(`${server.address}/#/files?session_id=${server.session_id}`);
    await page.reload();
    await page.getByRole('combobox', { name: 'Athlete' }).selectOption({ label: 'Wren Abara' });
    await page.getByLabel('Sensor files').setInputFiles(dropped);
  };
  /** The line that says how a file is read, in the form or in the editor. */
  const status = () => page.locator('.file-reading [role=status]').first();
  const says = (words: RegExp) => expect.poll(() => status().textContent(), { timeout: 60_000 }).toMatch(words);
  const look = (name: string) => page.getByRole('button', { name: `Look at the columns of ${name}` }).click();
  const column = (name: string) => page.getByLabel(`${name} is`);
  const measure = () => page.getByRole('button', { name: 'Measure' }).click();
  const stored = async (path: string) => (await (await fetch(`${server.address}/api${path}`)).json()) as never;

  test('is said for both files before anything is measured, with what looks right', async () => {
    const before = await stored('/imports');
    await drop(file('run left.csv', files.left), file('run right.csv', files.right));
    await expect.poll(() => page.getByText('Looks right.').count(), { timeout: 60_000 }).toBe(2);
    await says(/7 columns, g and deg\/s; 500 samples a second.*\d+ contacts/);
    await look('run left');
    const lines = page.getByRole('region', { name: /First lines of run left/ });
    expect(await lines.locator('tr').first().textContent()).toContain('time_s,acc_x_g');
    expect(await column('acc_x_g').inputValue()).toBe('acc_x 0');
    await page.getByText('Why it was read so').click();
    expect(await page.getByRole('table', { name: 'As the program found it' }).textContent()).toMatch(
      /delimiter.*comma/,
    );
    expect(await stored('/imports')).toEqual(before);
  });

  test('of a file that looks right it is said how many rows could not be read, and where the first is', async () => {
    const rows = files.left.trim().split('\n');
    for (const at of [300, 900]) rows[at] = rows[at].replace(/^([^,]*,[^,]*),[^,]*/, '$1,oops');
    await drop(file('run left.csv', rows.join('\n')));
    await says(/Looks right.*2 rows set aside \(first: line 301, column "acc_y_g": found "oops", expected a number\)/);
  });

  test('a wrong unit shows at once, and is taken back with one press', async () => {
    await drop(file('run left.csv', files.left));
    await look('run left');
    await page.getByLabel('Acceleration is in').selectOption('mg');
    await says(/Read wrongly.*At rest: 0.00 g/);
    await page.getByRole('button', { name: 'Undo my changes' }).click();
    await says(/Looks right/);
    await page.getByLabel('Time is in').selectOption('ms');
    await says(/Cannot be read|Read wrongly|Doubtful/);
  });

  test('choosing an axis that another column has swaps the two', async () => {
    await drop(file('run left.csv', files.left));
    await look('run left');
    await column('acc_x_g').selectOption({ label: 'acceleration y' });
    expect(await column('acc_y_g').inputValue()).toBe('acc_x 0');
    await column('gyr_z_dps').selectOption({ label: 'not used' });
    await says(/Say which column holds rotation z/);
    // What is not finished is not measured otherwise in silence.
    await measure();
    await page.getByText('Finish the columns of run left.csv first').waitFor();
  });

  test('a file that does not tell asks; the answer is pressed, and measured with', async () => {
    await drop(file('counts left.csv', countsWithoutUnit()));
    await says(/acceleration without a unit.*Which is right\?/);
    await page.getByRole('button', { name: /4096/ }).click();
    await says(/Doubtful|Looks right/);
    await measure();
    await page.getByText('Open every contact').or(page.locator('.import-card .fault')).first().waitFor();
    expect(await page.getByText('Which is right?').count()).toBe(0);
  });

  test('a mirrored axis is named and turned with one press; kept, the next file of that shape is read so', async () => {
    await drop(file('run left.csv', mirrored(files.left)), file('run right.csv', mirrored(files.right)));
    await says(/Doubtful.*rotation about z seems turned round/);
    await look('run left');
    await page.getByRole('button', { name: 'Turn the sign of rotation z' }).click();
    await says(/Looks right/);
    expect(await page.getByLabel('sign turned of gyr_z_dps').isChecked()).toBe(true);
    // The other file has the same columns and follows.
    await expect.poll(() => page.getByText('Looks right.').count(), { timeout: 60_000 }).toBeGreaterThan(1);
    await page.getByLabel('Keep for the next files').fill('Mirrored logger');
    await page.getByRole('button', { name: 'Keep layout' }).click();
    await page.getByText('Kept as "Mirrored logger"').waitFor();
    const next = recordingFiles(32);
    await drop(file('next left.csv', mirrored(next.left)), file('next right.csv', mirrored(next.right)));
    await says(/Looks right.*with your layout "Mirrored logger"/);
    await measure();
    await page.locator('.result-card .headline').waitFor();
    await page.getByText('How the files were understood').click();
    await page.getByText('saved layout "Mirrored logger"').first().waitFor();
  });

  test('a result of files that were read wrongly is taken back, and the files are in the form again', async () => {
    const { items: before } = (await stored('/imports')) as { items: { repetition_ids: number[] }[] };
    const again = recordingFiles(33);
    await drop(file('again left.csv', again.left), file('again right.csv', again.right));
    await measure();
    // The kept layout turns an axis that was right: the result has a warning, or finds no running at all.
    await page.getByRole('button', { name: 'Read wrongly? Take back' }).click();
    await page.locator('.file-set').getByText('again left.csv').first().waitFor();
    const { items } = (await stored('/imports')) as { items: { import_id: number; repetition_ids: number[] }[] };
    expect(items.length).toBe(before.length + 1);
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
  });

  test('a file without time or plain names is read by telling its columns and rate', async () => {
    await drop(file('bare left.csv', bare(files.left)));
    await says(/Cannot be read yet/);
    await look('bare left');
    for (const [name, label] of [
      ['p', 'acceleration x'],
      ['q', 'acceleration y'],
      ['r', 'acceleration z'],
      ['s', 'rotation x'],
      ['t', 'rotation y'],
      ['u', 'rotation z'],
    ]) {
      await column(name).selectOption({ label });
    }
    await page.getByLabel('Time is in').selectOption('rows');
    await says(/Say how many samples a second/);
    await page.getByLabel('Samples in a second').fill('500');
    await says(/Looks right.*500 samples a second/);
  });

  test('decimal mark, first row and names are told where the file does not show them', async () => {
    const rows = files.left.trim().split('\n').slice(1).join('\n').replaceAll(',', ';').replaceAll('.', ',');
    await drop(file('figures left.csv', `shoe 7\n10;20;30;40;50;60;70\n${rows}\n`));
    await look('figures left');
    expect(await page.getByLabel('Decimals are written with').inputValue()).toBe(',');
    await page.getByLabel('Rows begin in line').fill('3');
    await page.getByLabel('Above the rows stand').selectOption('names');
    await column('20').selectOption({ label: 'acceleration x' });
    const roles = await page.locator('.file-lines td.role').allTextContents();
    expect(roles.slice(0, 3)).toEqual(['above the table', 'names', 'row']);
  });

  test('by keyboard alone a file is opened, a column given another role, and closed', async () => {
    await drop(file('keys left.csv', mirrored(files.left)));
    await says(/Looks right/);
    await page.getByRole('button', { name: /Look at the columns/ }).focus();
    await page.keyboard.press('Enter');
    await column('acc_x_g').focus();
    await page.keyboard.press('ArrowDown');
    await expect.poll(() => column('acc_x_g').inputValue()).toBe('acc_y 0');
    await page.getByLabel('sign turned of acc_x_g').focus();
    await page.keyboard.press('Space');
    expect(await page.getByLabel('sign turned of acc_x_g').isChecked()).toBe(true);
    await page.getByRole('button', { name: /Close the columns/ }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Undo my changes' }).waitFor();
  });

  for (const [name, size] of Object.entries({ phone: PHONE, laptop: LAPTOP })) {
    test(`the editor fits a ${name}, has nothing for axe to say, and everything is large enough for a thumb`, async () => {
      await page.setViewportSize(size);
      await drop(file('run left.csv', mirrored(files.left)));
      await look('run left');
      await page.getByText('What comes out').waitFor();
      await page.getByText('Why it was read so').click();
      expect(await axeFindings(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBe(0);
      expect(await smallTargets(page)).toEqual([]);
      await page.setViewportSize(LAPTOP);
      expect(complaints).toEqual([]);
    });
  }

  test('layouts are renamed, exported, deleted, brought in again, and changed with a file', async () => {
    await page.goto(`${server.address}/#/layouts`);
    await page.reload();
    await page.getByRole('button', { name: 'Look, change Mirrored logger' }).click();
    await page.getByRole('row', { name: /gyr_z_dps rotation z, sign turned/ }).waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.getByLabel('Name', { exact: true }).fill('Left-handed logger');
    await page.getByRole('button', { name: 'Rename' }).click();
    await page.getByRole('strong').filter({ hasText: 'Left-handed logger' }).waitFor();
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Export Left-handed logger' }).click();
    const path = await (await download).path();
    const exported = JSON.parse(readFileSync(path, 'utf8')) as SavedLayout;
    expect(exported.layout.sensors[0].gyr!.signs).toEqual([1, 1, -1]);
    await page.getByRole('button', { name: 'Delete Left-handed logger' }).click();
    await page.getByRole('strong').filter({ hasText: 'Left-handed logger' }).waitFor({ state: 'detached' });
    await page.getByText('Deleted layouts').click();
    await page.getByRole('button', { name: 'Restore Left-handed logger' }).click();
    await page.getByRole('button', { name: 'Delete Left-handed logger' }).click();
    await page.getByRole('button', { name: 'Delete Left-handed logger' }).waitFor({ state: 'detached' });
    await page.getByText('Deleted layouts').click();
    await page.getByLabel('Bring in a layout').setInputFiles(path);
    await page.getByRole('strong').filter({ hasText: 'Left-handed logger' }).waitFor();
    await page.getByRole('button', { name: 'Look, change Left-handed logger' }).click();
    await page.getByLabel('Change it with a file').setInputFiles(file('run left.csv', mirrored(files.left)));
    await page.getByLabel('sign turned of acc_x_g').check();
    await page.getByRole('button', { name: 'Keep layout' }).click();
    await page.getByText('Kept as "Left-handed logger"').waitFor();
    await page.getByRole('row', { name: /acc_x_g acceleration x, sign turned/ }).waitFor();
    const { items } = (await stored('/layouts')) as { items: SavedLayout[] };
    expect(items.map(({ name, layout }) => [name, layout.sensors[0].acc.signs])).toEqual([
      ['Left-handed logger', [-1, 1, 1]],
    ]);
  });
});

/** Rotation about z with the wrong sign, as from a sensor whose axes are left-handed. */
function mirrored(csv: string): string {
  return csv.replace(/,(-?)([\d.]+)$/gm, (_, minus: string, size: string) => `,${minus ? '' : '-'}${size}`);
}

/** The six axes alone, under names that tell nothing. */
function bare(csv: string): string {
  const rows = csv.trim().split('\n').slice(1);
  return `${['p,q,r,s,t,u', ...rows.map((row) => row.slice(row.indexOf(',') + 1))].join('\n')}\n`;
}
