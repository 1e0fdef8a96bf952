// Run by `npm ci` (script `prepare`): makes `npx cinderlane` find this checkout's own command. npm links the commands of
// dependencies only, so the link of the project itself is set here.
import { chmodSync, existsSync, rmSync, symlinkSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const folder = fileURLToPath(new URL('../../node_modules/.bin/', import.meta.url));
if (existsSync(folder)) {
  const link = `${folder}cinderlane`;
  rmSync(link, { force: true });
  symlinkSync('../../api/command-line/cinderlane.mjs', link);
  chmodSync(fileURLToPath(new URL('./cinderlane.mjs', import.meta.url)), 0o755);
}
