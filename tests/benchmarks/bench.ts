/**
 * Everything that is timed, one after the other, on a machine that does nothing else: `npm run bench [-- NAME ...]`. Each part can be run
 * alone as `npm run bench:NAME`. Exit code 1 where one misses what it promises.
 */
import { spawnSync } from 'node:child_process';
import { availableParallelism, cpus } from 'node:os';
import { setTimeout as wait } from 'node:timers/promises';

/** What is compared with others first, what fills disk and memory last: whatever follows finds the machine as quiet as it was. */
const PARTS = [
  'filters',
  'analysis',
  'parse',
  'cli',
  'batch',
  'demo',
  'view',
  'season',
  'coach',
  'memory',
  'growth',
  'export',
];
/** Share of the processors that may be busy with something else; above it, one waits. */
const QUIET_SHARE = 0.1;
const LONGEST_WAIT_S = 60;

const words = process.argv.slice(2);
const parts = words.length > 0 ? words : PARTS;
console.log(`${cpus()[0].model}, ${availableParallelism()} processors, Node ${process.version}`);
const missed: string[] = [];
const took: string[] = [];
for (const part of parts) {
  const busy = await becomeQuiet();
  console.log(`\n== ${part}; the machine else busy: ${(100 * busy).toFixed(0)} %`);
  const start = performance.now();
  const { status } = spawnSync('npm', ['run', '--silent', `bench:${part}`], { stdio: 'inherit' });
  took.push(`${part} ${((performance.now() - start) / 1000).toFixed(0)} s`);
  if (status !== 0) missed.push(part);
}
console.log(`\n${took.join(', ')}`);
console.log(missed.length === 0 ? 'all as promised' : `not as promised: ${missed.join(', ')}`);
process.exitCode = missed.length === 0 ? 0 : 1;

/** After a part its pages are still written to the disk and its threads still end. @returns share of the processors that was busy last */
async function becomeQuiet(): Promise<number> {
  for (let waited = 0; ; waited++) {
    const before = processorTimes();
    await wait(1000);
    const now = processorTimes();
    const busy = 1 - (now.idle - before.idle) / (now.all - before.all);
    if (busy <= QUIET_SHARE || waited >= LONGEST_WAIT_S) return busy;
  }
}

function processorTimes(): { idle: number; all: number } {
  const times = cpus().map(({ times: { user, nice, sys, idle, irq } }) => ({
    idle,
    all: user + nice + sys + idle + irq,
  }));
  const sum = (key: 'idle' | 'all') => times.reduce((total, one) => total + one[key], 0);
  return { idle: sum('idle'), all: sum('all') };
}
