import { forgetPeak, peakMegabytes } from '../process-figures.ts';

/** What one size took. */
export interface Measured {
  cpu_s: number;
  wall_s: number;
  /** Most memory that the process held while it worked. */
  peak_mb: number;
}

/** Runs work and tells what it took; what was needed for it is there already and does not count. */
export async function measured(work: () => unknown): Promise<Measured> {
  forgetPeak();
  const used = process.cpuUsage();
  const start = performance.now();
  await work();
  const wall_s = (performance.now() - start) / 1000;
  const { user, system } = process.cpuUsage(used);
  return { cpu_s: (user + system) / 1e6, wall_s, peak_mb: peakMegabytes() };
}
