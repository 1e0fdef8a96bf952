/** Full scales that sensors are sold with, in g and in deg/s ('common practice'). */
const ACC_RANGES_G = [2, 3, 4, 6, 8, 10, 12, 15, 16, 18, 20, 24, 30, 32, 40, 50, 64, 100, 128, 200, 250, 256, 400];
const GYR_RANGES_DPS = [125, 245, 250, 300, 500, 1000, 1200, 2000, 3000, 4000];
const FEWEST_AT_LIMIT = 3;
const NEAR_NOMINAL = 0.03;
/** At a low rate a peak is one sample long: then more of them, at the very full scale, are asked for. */
const FEWEST_SINGLE = 5;
const AT_NOMINAL = 0.005;

/**
 * Watches one column for a flat top: the greatest value met again and again, twice or more in a row, is the sensor's limit.
 * Works block by block.
 */
export class FlatTop {
  private readonly high = new Extreme();
  private readonly low = new Extreme();

  watch(values: Float64Array): void {
    for (let i = 0; i < values.length; i++) {
      this.high.see(values[i]);
      this.low.see(-values[i]);
    }
  }

  /** True where every value was the same. */
  get isFlat(): boolean {
    return this.high.found.top === -this.low.found.top;
  }

  /** The greatest value of either sign; -Infinity before any. */
  get largest(): number {
    return Math.max(this.high.found.top, this.low.found.top);
  }

  get ends(): readonly Extreme[] {
    return [this.high, this.low];
  }
}

class Extreme {
  private top = Number.NEGATIVE_INFINITY;
  private count = 0;
  private run = 0;
  private longestRun = 0;

  see(value: number): void {
    if (value > this.top) {
      this.top = value;
      this.count = 1;
      this.run = 1;
      this.longestRun = 1;
    } else if (value === this.top) {
      this.count++;
      this.run++;
      if (this.run > this.longestRun) this.longestRun = this.run;
    } else this.run = 0;
  }

  /** The greatest value, how often it was met, and the longest stretch of it. */
  get found(): { top: number; count: number; run: number } {
    return { top: this.top, count: this.count, run: this.longestRun };
  }
}

/**
 * Full scale of three axes from their flat tops.
 * @returns the limit in the unit given, null when no axis has a flat top near a full scale that sensors have
 */
export function fullScale(axes: FlatTop[], kind: 'acc' | 'gyr', oneUnit: number): number | null {
  const ends = axes.flatMap((axis) => axis.ends.map((end) => end.found));
  const limit = Math.max(...ends.map(({ top }) => top));
  const atLimit = ends.filter(({ top }) => top > (1 - AT_NOMINAL) * limit);
  const count = atLimit.reduce((sum, end) => sum + end.count, 0);
  const run = Math.max(0, ...atLimit.map((end) => end.run));
  const ranges = (kind === 'acc' ? ACC_RANGES_G : GYR_RANGES_DPS).map((range) => range * oneUnit);
  const off = Math.min(...ranges.map((range) => Math.abs(limit / range - 1)));
  const flat =
    (run >= 2 && count >= FEWEST_AT_LIMIT && off < NEAR_NOMINAL) || (count >= FEWEST_SINGLE && off < AT_NOMINAL);
  return flat ? limit : null;
}
