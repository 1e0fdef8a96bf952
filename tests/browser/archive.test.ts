/** The pages of a programme's archive, over a real PostgreSQL and workers: what a keeper sees and does, and what others may not. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { admit } from '../../api/archive/make-archive.ts';
import { startKeeperServer } from '../../api/archive/serve/keeper-server.ts';
import { work } from '../../api/archive/work/worker.ts';
import { connectArchive } from '../../api/archive/connect.ts';
import type { FolderServer } from '../../api/server/serve-folder.ts';
import { type ArchivedClub, makeArchivedClub } from '../api/archive/archived-club.ts';
import { type KeptArchive, keepArchive } from '../api/archive/kept-archive.ts';
import { axeFindings } from '../helpers/axe.ts';
import { CHROMIUM_MISSING, CHROMIUM_PATH, complaintsOf, openBrowser, openPage, PHONE } from '../helpers/chromium.ts';
import { postgresPrograms } from '../helpers/postgres.ts';
import { smallTargets } from '../helpers/small-targets.ts';
import { buildViewInto } from '../helpers/view-server.ts';

const there = CHROMIUM_PATH !== null && postgresPrograms() !== null;
/** Marks a request as handed on from elsewhere, which the server takes for a device of the network. */
const FROM_A_PHONE = { 'x-forwarded-for': '192.168.7.31' };

describe.skipIf(!there)(there ? "an archive's pages" : `PostgreSQL is needed, and ${CHROMIUM_MISSING}`, () => {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-keeper-'));
  let club: ArchivedClub;
  let archive: KeptArchive;
  let server: FolderServer;
  let browser: Browser;
  let page: Page;
  let complaints: string[];
  let context: BrowserContext;
  let phone: Page;

  beforeAll(async () => {
    const web_folder = join(folder, 'web');
    [club, browser] = await Promise.all([makeArchivedClub(), openBrowser(), buildViewInto(web_folder)]);
    archive = await keepArchive(club.folder, 'pseudonyms');
    await admit(archive.owner, 'club', 'Mill Road');
    server = await startKeeperServer({
      archive: archive.keeperAddress,
      data_folder: folder,
      host: '127.0.0.1',
      port: 0,
      web_folder,
    });
    page = await openPage(browser);
    complaints = complaintsOf(page);
    context = await browser.newContext({ viewport: PHONE, extraHTTPHeaders: FROM_A_PHONE, locale: 'de-DE' });
    phone = await context.newPage();
    phone.setDefaultTimeout(60_000);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
    await archive?.close();
    for (const one of [folder, club?.folder]) if (one) rmSync(one, { recursive: true, force: true });
  });

  const picture = async (of: Page, name: string) => {
    const to = process.env.CINDERLANE_PICTURES;
    if (to) await of.screenshot({ path: `${to}/archive-${name}.png`, fullPage: true });
  };

  /** A worker on a connection of its own, until nothing is left. */
  async function workAll(): Promise<void> {
    const client = await connectArchive(archive.keeperAddress);
    await work(client, { until_done: true, signal: new AbortController().signal, tell: () => undefined });
    await client.end();
  }

  test('tell the keeper who sent, give a re-analysis to workers, show it beside the earlier results, and accept it as a whole', async () => {
    await page.goto(server.address);
    await page.getByRole('heading', { name: 'Northern programme' }).waitFor();
    expect(await page.locator('.headline').textContent()).toContain('Mill Road has sent nothing for a week or longer.');
    const row = page.getByRole('row', { name: /Harrow Lane/ });
    // Two people who agreed, with a repetition each.
    expect((await row.getByRole('cell').allTextContents()).slice(1, 3)).toEqual(['2', '2']);
    await page.getByText('Analyse again').click();
    await page.locator('.start-run select').selectOption('Harrow Lane');
    await page.getByLabel(/Settings that differ/).fill('{"swing": ');
    await page.getByRole('button', { name: 'Give it to the workers' }).click();
    await page.getByText(/This is no JSON/).waitFor();
    await page.getByLabel(/Settings that differ/).fill('{"swing": {"cutoff_hz": 9}}');
    await page.getByRole('button', { name: 'Give it to the workers' }).click();
    await page.getByText('1 repetition given to the workers.').waitFor();
    await page.getByText(/1 job waits, and no worker is there\./).waitFor();
    await picture(page, 'waiting');
    await workAll();
    await page.getByText('1 of 1 done').waitFor();

    await page.getByRole('link', { name: /^Re-analysis, / }).click();
    const contacts = page.getByRole('row', { name: /^contacts/i });
    await contacts.waitFor();
    await picture(page, 'run');
    const { rows: before } = await archive.keeper.query(
      "SELECT count(*)::int AS n FROM archive.records r JOIN archive.analyses a ON a.analysis_id = (r.fields->>'analysis_id')::uuid WHERE a.run_id IS NOT NULL",
    );
    expect(before).toEqual([{ n: 0 }]);
    await page.getByRole('button', { name: 'Show the new results from now on' }).click();
    await page.getByRole('button', { name: 'Yes, show them' }).click();
    await page.getByText('1 repetition changed.').waitFor();
    const { rows: after } = await archive.keeper.query(
      "SELECT count(*)::int AS n FROM archive.records r JOIN archive.analyses a ON a.analysis_id = (r.fields->>'analysis_id')::uuid WHERE a.run_id IS NOT NULL",
    );
    expect(after).toEqual([{ n: 1 }]);
    await page.getByRole('button', { name: 'Show the earlier results again' }).click();
    await page.getByRole('button', { name: 'Show the new results from now on' }).waitFor();
    expect(complaints).toEqual([]);
  });

  test('say by cause what failed, and have it done again', async () => {
    await archive.owner.query('CREATE TABLE aside AS SELECT * FROM archive.recordings');
    await archive.owner.query('CREATE TABLE chunks_aside AS SELECT * FROM archive.recording_chunks');
    await archive.owner.query('DELETE FROM archive.recordings');
    await page.goto(`${server.address}/#/archive`);
    await page.reload();
    await page.getByText('Analyse again').click();
    await page.getByRole('button', { name: 'Give it to the workers' }).click();
    await page.getByText('1 repetition given to the workers.').waitFor();
    await workAll();
    await page.getByText('1 job failed.').waitFor();
    await page
      .getByRole('link', { name: /^Re-analysis, / })
      .first()
      .click();
    await page.getByText(/is no longer in the archive/).waitFor();
    await picture(page, 'failed');
    await archive.owner.query('INSERT INTO archive.recordings SELECT * FROM aside');
    await archive.owner.query('INSERT INTO archive.recording_chunks SELECT * FROM chunks_aside');
    await page.getByRole('button', { name: 'Do the failed ones again' }).click();
    await page.getByText('0 of 1 done, 1 waiting').waitFor();
    await workAll();
    await page.getByText('1 of 1 done').waitFor();
  });

  test('let a paired scientist look on a phone, in German, and change nothing', async () => {
    await phone.goto(server.address);
    await phone.getByRole('heading', { name: 'Dieses Gerät koppeln' }).waitFor();
    await page.goto(`${server.address}/#/devices`);
    const roles = page.getByLabel('It may use').locator('option');
    await roles.first().waitFor({ state: 'attached' });
    expect(await roles.allTextContents()).toEqual([
      'Keeper: everything of the archive',
      'Scientist: looking at the archive',
    ]);
    await page.getByRole('button', { name: 'Show a pairing code' }).click();
    await phone.getByLabel('Code, sechs Ziffern').fill((await page.locator('.access-digits').textContent()) ?? '');
    await phone.getByRole('button', { name: 'Koppeln' }).click();
    await phone.getByRole('link', { name: 'Weiter' }).click();
    await phone.getByRole('heading', { name: 'Vereine', exact: true }).waitFor();
    await phone.getByText('Mill Road hat seit einer Woche oder länger nichts gesendet.').waitFor();
    expect(await phone.getByText('Neu auswerten').count()).toBe(0);
    expect(await phone.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
    await picture(phone, 'phone-german');
    const refused = await phone.evaluate(async () => {
      const headers = { 'content-type': 'application/json' };
      return (await fetch('/api/archive/runs', { method: 'POST', body: '{}', headers })).status;
    });
    expect(refused).toBe(403);
    await phone
      .getByRole('link', { name: /^Neuauswertung, / })
      .first()
      .click();
    await phone.getByRole('heading', { name: /Neue Ergebnisse/ }).waitFor();
    expect(await phone.getByRole('button', { name: /zeigen/ }).count()).toBe(0);
    expect(await phone.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
    await picture(phone, 'phone-run');
  });

  test('can be used by everybody: no barrier that axe finds, no target too small, light and dark', async () => {
    for (const look of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme: look });
      await page.goto(`${server.address}/#/archive`);
      await page.getByRole('heading', { name: 'Workers' }).waitFor();
      expect(await axeFindings(page)).toEqual([]);
      await picture(page, look);
      await page
        .getByRole('link', { name: /^Re-analysis, / })
        .last()
        .click();
      await page.getByRole('heading', { name: 'By worker' }).waitFor();
      expect(await axeFindings(page)).toEqual([]);
      await picture(page, `run-${look}`);
    }
    await phone.goto(`${server.address}/#/archive`);
    await phone.getByRole('heading', { name: 'Vereine', exact: true }).waitFor();
    expect(await smallTargets(phone)).toEqual([]);
  });

  test('serve nothing of a club', async () => {
    const answer = await server.app.inject({ method: 'GET', url: '/api/athletes' });
    expect([answer.statusCode, answer.json().code]).toEqual([404, 'ROUTE_NOT_FOUND']);
  });
});
