/**
 * Builds the view where its sources changed since the last build: `npm start` does it every time, and mostly has nothing to do.
 */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { thirdPartyNotices } from './third-party-notices.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const MARK = join(ROOT, 'web/dist/.sources');

/** Hash over everything that the view is made of: its sources, what it shares, and the versions of its libraries. */
function hashOfSources(): string {
  const hash = createHash('sha256');
  for (const path of [...filesBelow('web'), ...filesBelow('shared'), 'package-lock.json']) {
    hash
      .update(`${path}\0`)
      .update(readFileSync(join(ROOT, path)))
      .update('\0');
  }
  return hash.digest('hex');
}

function filesBelow(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(ROOT, join(entry.parentPath, entry.name)))
    .filter((path) => !path.startsWith(join('web', 'dist')))
    .sort();
}

/** @returns whether there was anything to build */
export async function buildView(): Promise<boolean> {
  const hash = hashOfSources();
  if (existsSync(MARK) && readFileSync(MARK, 'utf8') === hash) return false;
  // Loaded only where it is needed: that alone takes longer than to see that nothing changed.
  const { build } = await import('vite');
  await build({ configFile: join(ROOT, 'web/vite.config.ts'), plugins: [thirdPartyNotices()], logLevel: 'warn' });
  writeFileSync(MARK, hash);
  return true;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await buildView();
