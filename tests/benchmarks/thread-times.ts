import { readdirSync, readFileSync } from 'node:fs';

/** Linux counts the time of processors in hundredths of a second. */
const TICK_MS = 10;

/** Milliseconds of processors that each thread of this process has taken so far, by its number; Linux only. */
export function threadTimes(): Map<number, number> {
  const times = new Map<number, number>();
  for (const thread of readdirSync('/proc/self/task')) {
    try {
      const text = readFileSync(`/proc/self/task/${thread}/stat`, 'utf8');
      const [, ...fields] = text.slice(text.lastIndexOf(')')).split(' ');
      times.set(Number(thread), (Number(fields[11]) + Number(fields[12])) * TICK_MS);
    } catch {
      // The thread has just ended.
    }
  }
  return times;
}

/** What the process' first thread took between two readings, what the busiest others did, and all the rest together. */
export function shareOfThreads(
  before: Map<number, number>,
  after: Map<number, number>,
  busiest: number,
): { first: number; busy: number; rest: number } {
  const taken = [...after].map(([thread, ms]) => [thread, ms - (before.get(thread) ?? 0)] as const);
  const others = taken
    .filter(([thread]) => thread !== process.pid)
    .map(([, ms]) => ms)
    .sort((a, b) => b - a);
  const sum = (values: number[]) => values.reduce((total, ms) => total + ms, 0);
  return {
    first: taken.find(([thread]) => thread === process.pid)?.[1] ?? 0,
    busy: sum(others.slice(0, busiest)),
    rest: sum(others.slice(busiest)),
  };
}
