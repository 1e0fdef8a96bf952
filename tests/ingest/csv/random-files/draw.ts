import { randomStream } from '../make-signal.ts';

/** Seeded choices: the same seed always draws the same file. */
export class Draw {
  readonly next: () => number;
  constructor(seed: number) {
    this.next = randomStream(Math.imul(seed + 1, 2654435761));
    this.next();
  }
  pick<T>(values: readonly T[]): T {
    return values[Math.floor(this.next() * values.length)];
  }
  /** One of several with weights. */
  weighed<T>(values: readonly (readonly [T, number])[]): T {
    let at = this.next() * values.reduce((sum, [, weight]) => sum + weight, 0);
    for (const [value, weight] of values) {
      at -= weight;
      if (at < 0) return value;
    }
    return values[values.length - 1][0];
  }
  chance(share: number): boolean {
    return this.next() < share;
  }
  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }
  whole(low: number, high: number): number {
    return Math.floor(this.between(low, high + 1));
  }
}
