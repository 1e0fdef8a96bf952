/**
 * Time and memory of every long path by its size: `npm run bench:growth [-- --long] [-- NAME ...]`. Each size is measured in a process of
 * its own, after what it needs was made; time is that of processors. `--long` goes on to the largest sizes that are meant to work (hours, and
 * 60 GB of disk). Exit code 1 where time grows by more than size to the power of 1, with the interval, or where memory that must stay flat
 * does not.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { growthOf } from './exponent.ts';
import { LONG_PATHS, type LongPath } from './growth/long-paths.ts';
import type { Measured } from './growth/measured.ts';

/** Of all sizes but the greatest, which takes as long as the others together. */
const REPEATS = 2;
/** Beyond this the greatest size needs that many times the memory of the least. */
const MOST_TIMES = 1.35;
/** Time may bend upwards by so much before it is told: caches are small, and trees have a depth. */
const MOST_EXPONENT = 1.05;

const words = process.argv.slice(2);
const long = words.includes('--long');
const names = words.filter((word) => !word.startsWith('--'));
for (const path of LONG_PATHS.filter(({ name }) => names.length === 0 || names.includes(name))) await show(path);

async function show(path: LongPath): Promise<void> {
  const sizes = long ? [...path.sizes, ...path.long] : path.sizes;
  console.log(`\n${path.name}: ${path.what}`);
  const points: [number, Measured][] = [];
  for (const size of sizes) {
    const repeats = size === sizes[sizes.length - 1] ? 1 : REPEATS;
    const measured = Array.from({ length: repeats }, () => inItsOwnProcess(path, size));
    points.push(...measured.map((one): [number, Measured] => [size, one]));
    const least = (pick: (one: Measured) => number) => Math.min(...measured.map(pick));
    const seconds = least(({ cpu_s }) => cpu_s);
    console.log(
      `${size.toLocaleString('en').padStart(12)} ${path.unit.padEnd(10)} ${seconds.toFixed(3).padStart(9)} s of processors, by the clock ${least(({ wall_s }) => wall_s).toFixed(3)} s, peak ${least(({ peak_mb }) => peak_mb).toFixed(0)} MB`,
    );
  }
  const time = growthOf(points.map(([size, { cpu_s }]) => [size, cpu_s]));
  const memory = growthOf(points.map(([size, { peak_mb }]) => [size, peak_mb]));
  const told = ({ exponent, within }: typeof time) => `${exponent.toFixed(2)} +- ${within.toFixed(2)}`;
  const steep = time.exponent - time.within > MOST_EXPONENT;
  const peaks = points.map(([, { peak_mb }]) => peak_mb);
  const most_mb = Math.max(...peaks);
  const swells = path.memory === 'flat' && most_mb > MOST_TIMES * Math.min(...peaks);
  const beyond = path.most_mb !== undefined && most_mb > path.most_mb;
  console.log(
    `  time grows by size to the power of ${told(time)}${steep ? ': ABOVE LINEAR' : ''}, memory ${told(memory)} (${path.memory}${swells ? ': NOT' : ''}${path.most_mb ? `, at most ${path.most_mb} MB${beyond ? ': NOT' : ''}` : ''})`,
  );
  if (steep || swells || beyond) process.exitCode = 1;
}

function inItsOwnProcess({ name }: LongPath, size: number): Measured {
  const script = fileURLToPath(new URL('./growth/measure-one.ts', import.meta.url));
  const result = spawnSync(process.execPath, ['--expose-gc', '--import', 'tsx', script, name, String(size)], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  if (result.status !== 0) throw new Error(`${name}, ${size}: exit code ${result.status}`);
  return JSON.parse(result.stdout.trim().split('\n').at(-1)!) as Measured;
}
