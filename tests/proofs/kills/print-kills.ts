/**
 * npm run proof:kills [-- ROUNDS]: a server killed in the middle of an import, a capture, an erasure, a backup and a migration, by turns.
 * Nothing acknowledged may be lost, and no name may be left after an acknowledged erasure. A server that does not start again is one loss,
 * with what it said; the proof goes on. Rounds may be any number: npm run proof:kills -- 25.
 */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { uniform } from '../../helpers/random.ts';
import { ServerProcess } from '../../helpers/server-process.ts';
import { migrating } from './migrating.ts';
import { backingUp, capturing, erasing, importing, type Scene } from './scenes.ts';

const SCENES: Record<string, Scene> = { importing, capturing, erasing, backingUp, migrating };
const rounds = Number(process.argv[2] ?? 300);
const random = uniform(Number(process.argv[3] ?? 1));
const folder = mkdtempSync(join(tmpdir(), 'cinderlane-kills-'));
const wrong: string[] = [];
const kills = new Map<string, number>();
for (let round = 0; round < rounds; round++) {
  const names = Object.keys(SCENES);
  const name = names[round % names.length];
  mkdirSync(join(folder, name), { recursive: true });
  const found = await SCENES[name](join(folder, name), random, round).catch(async (error: Error) => {
    // A server that does not start again is what this looks for: it counts, and the next round goes on.
    await ServerProcess.killAll();
    return [`round ${round}: ${error.message}`];
  });
  for (const what of found) console.log(`${name}: ${what}`);
  wrong.push(...found);
  kills.set(name, (kills.get(name) ?? 0) + 1);
}
rmSync(folder, { recursive: true, force: true });
console.log([...kills].map(([name, n]) => `${n} ${name}`).join(', '));
console.log(`${rounds} kills, ${wrong.length} losses or traces`);
process.exit(wrong.length > 0 ? 1 : 0);
