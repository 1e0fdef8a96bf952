/**
 * Everything that is timed, one after the other, on a machine that does nothing else: `npm run bench [-- NAME ...]`. Each part can be run
 * alone as `npm run bench:NAME`. Exit code 1 where one misses what it promises.
 */
import { spawnSync } from 'node:child_process';
import { availableParallelism, cpus, loadavg } from 'node:os';

/** In this order: what suffers most from a warm machine comes first. */
const PARTS = ['filters', 'analysis', 'parse', 'cli', 'batch', 'demo', 'export'];

const words = process.argv.slice(2);
const parts = words.length > 0 ? words : PARTS;
console.log(
  `${cpus()[0].model}, ${availableParallelism()} processors, Node ${process.version}, load ${loadavg()[0].toFixed(2)}`,
);
const missed: string[] = [];
for (const part of parts) {
  console.log(`\n== ${part}`);
  const { status } = spawnSync('npm', ['run', '--silent', `bench:${part}`], { stdio: 'inherit' });
  if (status !== 0) missed.push(part);
}
console.log(missed.length === 0 ? '\nall as promised' : `\nnot as promised: ${missed.join(', ')}`);
process.exitCode = missed.length === 0 ? 0 : 1;
