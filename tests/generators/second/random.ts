import { uniform } from '../../helpers/random.ts';

/** Seeded random numbers, from a string: the same name always gives the same recording. */
export class Random {
  /** Uniform in [0, 1). */
  readonly next: () => number;
  constructor(seed: string) {
    let hash = 2166136261;
    for (let i = 0; i < seed.length; i++) hash = Math.imul(hash ^ seed.charCodeAt(i), 16777619);
    this.next = uniform(hash >>> 0);
    for (let i = 0; i < 8; i++) this.next();
  }
  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }
  /** Normal with the given mean and SD, held within three SD. */
  normal(mean = 0, sd = 1): number {
    const u = Math.max(this.next(), 1e-12);
    const z = Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * this.next());
    return mean + sd * Math.max(-3, Math.min(3, z));
  }
  pick<T>(values: readonly T[]): T {
    return values[Math.floor(this.next() * values.length)] as T;
  }
}
