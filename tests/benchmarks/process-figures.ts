import { readFileSync, writeFileSync } from 'node:fs';

/** Linux counts the time of processors in hundredths of a second. */
const TICK_S = 0.01;

/** The most memory that a process has held so far, threads included, MB (VmHWM, Linux); NaN once it has ended. @param pid this one without it */
export function peakMegabytes(pid: number | 'self' = 'self'): number {
  return Number(/VmHWM:\s+(\d+) kB/.exec(read(pid, 'status'))?.[1]) * 1.024e-3;
}

/** Seconds of processors that a process has taken so far, threads included; NaN once it has ended. */
export function processorSeconds(pid: number): number {
  const text = read(pid, 'stat');
  const [, ...fields] = text.slice(text.lastIndexOf(')')).split(' ');
  return (Number(fields[11]) + Number(fields[12])) * TICK_S;
}

/** Lets this process' peak begin anew, from what it holds now. */
export function forgetPeak(): void {
  (globalThis as { gc?: () => void }).gc?.();
  writeFileSync('/proc/self/clear_refs', '5');
}

function read(pid: number | 'self', file: 'status' | 'stat'): string {
  try {
    return readFileSync(`/proc/${pid}/${file}`, 'utf8');
  } catch {
    // It has just ended.
    return '';
  }
}
