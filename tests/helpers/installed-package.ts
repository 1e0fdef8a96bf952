import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
/** Windows starts npm by this name, and only through a shell. */
const NPM = process.platform === 'win32' ? 'npm.cmd' : 'npm';

export interface InstalledPackage {
  /** Folder outside the checkout in which the package was installed. */
  folder: string;
  /** Entry of the command in there. */
  command: string;
  /** Paths in the package, from its own top. */
  files: string[];
  remove(): void;
}

/**
 * Packs the checkout and installs the package in a folder of its own, as anybody would. The one library with a binary is taken
 * from the checkout, where it has been built: building it again takes minutes and shows nothing about the package.
 */
export function installPackage(): InstalledPackage {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-package-'));
  const npm = (words: string[], cwd: string) =>
    execFileSync(NPM, words, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'], shell: NPM !== 'npm' });
  const [packed] = Object.values(
    JSON.parse(npm(['pack', '--json', '--silent', '--pack-destination', folder], ROOT)),
  ) as {
    filename: string;
    files: { path: string }[];
  }[];
  writeFileSync(join(folder, 'package.json'), '{"private":true}\n');
  const quick = ['--omit=optional', '--ignore-scripts', '--prefer-offline', '--no-audit', '--no-fund'];
  npm(['install', ...quick, `./${packed.filename}`], folder);
  for (const name of ['better-sqlite3', 'bindings', 'file-uri-to-path']) {
    cpSync(join(ROOT, 'node_modules', name), join(folder, 'node_modules', name), { recursive: true });
  }
  return {
    folder,
    command: join(folder, 'node_modules/cinderlane/api/command-line/cinderlane.mjs'),
    files: packed.files.map(({ path }) => path),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** Names of the packages that were installed, scoped ones included. */
export function packagesIn(folder: string): string[] {
  return readdirSync(join(folder, 'node_modules')).flatMap((name) =>
    name.startsWith('@') ? readdirSync(join(folder, 'node_modules', name)).map((inner) => `${name}/${inner}`) : [name],
  );
}
