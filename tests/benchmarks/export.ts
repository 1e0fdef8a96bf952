/**
 * Research export of a season, some 40,000 contacts: `npm run bench:export [-- CONTACTS ...]`. The export runs as the command line does, in
 * a process of its own; its time and its peak of memory are printed. Exit code 1 above 10 s for a season, or above 300 MB for any. A million
 * contacts are among the sizes of `npm run bench:growth`.
 */
import { rmSync, statSync } from 'node:fs';
import { loadavg } from 'node:os';
import { join } from 'node:path';
import { exportSeason } from './export-season.ts';

const CONTACTS = process.argv.length > 2 ? process.argv.slice(2).map(Number) : [43_000];
const ATHLETES = 30;
const SEASON = 50_000;
const TARGET_S = 10;
const TARGET_MB = 300;

for (const wanted of CONTACTS) {
  const { folder, out, contacts, wall_s, peak_mb } = await exportSeason({ athletes: ATHLETES, contacts: wanted });
  const size = (name: string) => `${name} ${(statSync(join(out, name)).size / 1e6).toFixed(1)} MB`;
  const season = contacts < SEASON;
  process.stdout.write(
    `${ATHLETES} athletes, ${contacts} contacts, load ${loadavg()[0].toFixed(1)}: export with start-up ${wall_s.toFixed(1)} s${season ? ` (target ${TARGET_S})` : ''}, ` +
      `peak ${peak_mb.toFixed(0)} MB (target ${TARGET_MB}); ${size('contacts.csv')}, ${size('contacts.parquet')}\n`,
  );
  rmSync(folder, { recursive: true, force: true });
  if (peak_mb > TARGET_MB || (season && wall_s > TARGET_S)) process.exitCode = 1;
}
