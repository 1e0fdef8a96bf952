import type { Taken } from './rival.ts';

/** Ratios of another's time to ours, above 1 where ours is faster, over the repeats of one run. */
export interface Ratio {
  by_clock: Spread;
  by_processor: Spread;
  ours_ms: number;
  theirs_ms: number;
}

export interface Spread {
  least: number;
  median: number;
  most: number;
}

/** Times one piece of work of ours; it may answer later. */
export async function timeOurs(work: () => unknown): Promise<Taken> {
  const used = process.cpuUsage();
  const start = performance.now();
  await work();
  const wall_s = (performance.now() - start) / 1000;
  const { user, system } = process.cpuUsage(used);
  return { wall_s, cpu_s: (user + system) / 1e6 };
}

/**
 * Runs ours and theirs in turn, so that what else the machine does meets both alike.
 * @param repeats pairs that count; one before them warms both up
 */
export async function compare(
  ours: () => Promise<Taken>,
  theirs: () => Promise<Taken>,
  repeats: number,
): Promise<Ratio> {
  const pairs: [Taken, Taken][] = [];
  for (let k = 0; k <= repeats; k++) pairs.push([await ours(), await theirs()]);
  pairs.shift();
  const middle = (values: number[]) => spreadOf(values).median;
  return {
    by_clock: spreadOf(pairs.map(([own, other]) => other.wall_s / own.wall_s)),
    by_processor: spreadOf(pairs.map(([own, other]) => other.cpu_s / own.cpu_s)),
    ours_ms: 1000 * middle(pairs.map(([own]) => own.cpu_s)),
    theirs_ms: 1000 * middle(pairs.map(([, other]) => other.cpu_s)),
  };
}

/** Least, middle and greatest of some values. */
export function spreadOf(values: number[]): Spread {
  const sorted = [...values].sort((a, b) => a - b);
  return { least: sorted[0], median: sorted[sorted.length >> 1], most: sorted[sorted.length - 1] };
}

/** A line of a table of ratios. @param wanted least median ratio by the clock */
export function ratioLine(name: string, ratio: Ratio, wanted?: number): string {
  const { by_clock, by_processor, ours_ms, theirs_ms } = ratio;
  const told = ({ least, median, most }: Spread) =>
    `${median.toFixed(2).padStart(6)} (${least.toFixed(2)} to ${most.toFixed(2)})`;
  const met = wanted === undefined ? '' : `  wanted ${wanted}: ${by_clock.median >= wanted ? 'met' : 'NOT MET'}`;
  return `${name.padEnd(44)} ${ours_ms.toFixed(1).padStart(8)} ${theirs_ms.toFixed(1).padStart(8)}  ${told(by_clock)}  ${told(by_processor)}${met}`;
}

/** Head of a table of ratios. */
export const RATIO_HEAD = `${''.padEnd(44)}  ours ms theirs ms  their time / ours by the clock, by processor`;
