// Run by `npm ci` (script `prepare`): says in one sentence what the machine lacks, and makes `npx cinderlane` find this checkout's
// own command. npm links the commands of dependencies only, so the project's own stands in node_modules/.bin as a small file; no
// link, which Windows would refuse.
import { chmodSync, existsSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { databaseProblem, nodeProblem } from './check-machine.mjs';

const folder = fileURLToPath(new URL('../../node_modules/.bin/', import.meta.url));
if (existsSync(folder)) {
  const command = `${folder}cinderlane`;
  // An older checkout has a link here, and writing would go through it.
  rmSync(command, { force: true });
  writeFileSync(command, "#!/usr/bin/env node\nimport('../../api/command-line/cinderlane.mjs');\n");
  chmodSync(command, 0o755);
  writeFileSync(`${command}.cmd`, '@node "%~dp0..\\..\\api\\command-line\\cinderlane.mjs" %*\r\n');
}

const problem = nodeProblem() ?? databaseProblem();
if (problem !== null) {
  process.stderr.write(`${problem}\n`);
  process.exitCode = 1;
}
