#!/usr/bin/env node
import module from 'node:module';
import { setFlagsFromString } from 'node:v8';
import { nodeProblem } from './check-machine.mjs';

const problem = nodeProblem();
if (problem === null) {
  // From Node 22 on: what was compiled once is kept in the system's passing folder, for a quicker start.
  module.enableCompileCache?.();
  // A server stays for hours, so its young generation stays small: by default that garbage alone comes to some 90 MB over its
  // threads; so does that of an export, which goes through a club's years. A single analysis is over in a second and is faster with room.
  if (['serve', 'import', 'export'].includes(process.argv[2])) setFlagsFromString('--semi-space-growth-factor=1');
  const { loadSource } = await import('../load-source.mjs');
  const loadFile = (file) => loadSource(`api/command-line/${file.replace('./', '')}`);
  const { main } = await loadFile('./main.ts');
  process.exitCode = await main(process.argv.slice(2), loadFile);
} else {
  process.stderr.write(`${problem}\n`);
  process.exitCode = 1;
}
