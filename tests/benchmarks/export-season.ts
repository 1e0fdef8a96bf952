import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { openTestApi } from '../helpers/test-api.ts';
import { copySeason } from './copy-season.ts';
import { peakMegabytes, processorSeconds } from './process-figures.ts';

/** Contacts of the sprint that is copied. */
const CONTACTS_A_SPRINT = 24;
/** The system keeps the peak; what a process took is gone with it. */
const LOOK_MS = 20;

export interface SeasonExport {
  folder: string;
  /** Where the tables lie. */
  out: string;
  contacts: number;
  wall_s: number;
  cpu_s: number;
  peak_mb: number;
}

/**
 * Fills a store with seasons of a club that agreed to research, and exports it as the command line does, in a process of its own.
 * @returns what it took, with start-up; the folder stays
 */
export async function exportSeason({
  athletes,
  contacts,
}: {
  athletes: number;
  contacts: number;
}): Promise<SeasonExport> {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-export-'));
  const api = await openTestApi(folder);
  const sessions = Math.max(1, Math.round(contacts / CONTACTS_A_SPRINT / athletes));
  await copySeason(api, { athletes, sessions, efforts: [100] });
  const { items } = (await api.call('GET', '/athletes')).body;
  for (const { athlete_id } of items) {
    await api.call('PUT', `/athletes/${athlete_id}/research-consent`, { status: 'given', status_date: '2026-11-01' });
  }
  const { n } = api.store.prepare('SELECT count(*) AS n FROM contacts').get() as { n: number };
  await api.app.close();
  api.store.close();
  const out = join(folder, 'out');
  return { folder, out, contacts: n, ...(await runExport(folder, out)) };
}

async function runExport(folder: string, out: string): Promise<Pick<SeasonExport, 'wall_s' | 'cpu_s' | 'peak_mb'>> {
  const program = fileURLToPath(new URL('../../api/command-line/cinderlane.mjs', import.meta.url));
  const start = performance.now();
  const child = spawn(process.execPath, [program, 'export', '--out', out, '--data', folder], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  let [peak_mb, cpu_s] = [0, 0];
  const watch = setInterval(() => {
    peak_mb = peakMegabytes(child.pid) || peak_mb;
    cpu_s = processorSeconds(child.pid!) || cpu_s;
  }, LOOK_MS);
  const [code] = await once(child, 'exit');
  clearInterval(watch);
  if (code !== 0) throw new Error(`export: exit code ${code}`);
  return { wall_s: (performance.now() - start) / 1000, cpu_s, peak_mb };
}
