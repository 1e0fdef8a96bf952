/**
 * Research export of a season: 30 athletes, 60 sessions, some 40,000 contacts. `npm run bench:export [-- SESSIONS]`. The export runs as the command line
 * does, in a process of its own; its time and its peak of memory (VmHWM, Linux) are printed. Exit code 1 above 10 s or 300 MB.
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { openTestApi } from '../helpers/test-api.ts';
import { copySeason } from './copy-season.ts';

const SESSIONS = Number(process.argv[2] ?? 60);
const TARGET_S = 10;
const TARGET_MB = 300;
const folder = mkdtempSync(join(tmpdir(), 'cinderlane-export-'));
const api = await openTestApi(folder);
await copySeason(api, { athletes: 30, sessions: SESSIONS, efforts: [100] });
const { items } = (await api.call('GET', '/athletes')).body;
for (const { athlete_id } of items) {
  await api.call('PUT', `/athletes/${athlete_id}/research-consent`, { status: 'given', status_date: '2026-11-01' });
}
const { n } = api.store.prepare('SELECT count(*) AS n FROM contacts').get() as { n: number };
process.stdout.write(`30 athletes, ${SESSIONS} sessions, ${n} contacts, load ${loadavg()[0].toFixed(1)}\n`);
await api.app.close();
api.store.close();

const program = fileURLToPath(new URL('../../api/command-line/cinderlane.mjs', import.meta.url));
const out = join(folder, 'out');
const start = performance.now();
const child = spawn(process.execPath, [program, 'export', '--out', out, '--data', folder], { stdio: 'inherit' });
let peak = 0;
const watch = setInterval(() => {
  try {
    const line = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${child.pid}/status`, 'utf8'));
    peak = Math.max(peak, Number(line?.[1] ?? 0) / 1000);
  } catch {
    // The process has just ended.
  }
}, 20);
const code = await new Promise<number>((resolve) => child.once('exit', (c) => resolve(c ?? 1)));
clearInterval(watch);
const seconds = (performance.now() - start) / 1000;
const size = (name: string) => `${name} ${(statSync(join(out, name)).size / 1e6).toFixed(1)} MB`;
process.stdout.write(
  `export with start-up ${seconds.toFixed(1)} s (target ${TARGET_S}), peak ${peak.toFixed(0)} MB (target ${TARGET_MB}); ` +
    `${size('contacts.csv')}, ${size('contacts.parquet')}\n`,
);
rmSync(folder, { recursive: true, force: true });
process.exitCode = code === 0 && seconds <= TARGET_S && peak <= TARGET_MB ? 0 : 1;
