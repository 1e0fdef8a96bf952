import type { Gap } from '../../../shared/sample-block.ts';
import type { BuiltTime } from '../time/build-time.ts';

/** This many rows alike, and then a jump: no sensor in motion reads that. */
const FEWEST_HELD = 3;
const FEWEST_ZERO = 2;
/** Where a row hardly ever repeats the one before, noise shows in every row: this many alike are no rest. A longer stretch may be made up. */
const CHANCE = 0.01;
const MOST_HELD = 60;
/** What a moving sensor changes by at least where true rows go on again. */
const JUMP = { acc_mps2: 1.5, gyr_radps: 0.6 };
/** Where more rows than this repeat the one before, the sensor was slower than the file: nothing was lost. */
const MOST_SHARE = 0.2;

export interface FilledRows {
  /** True for every row that holds one number throughout or the row before again, for want of a measurement. */
  filled: Uint8Array;
  count: number;
  /** Share of the rows that repeat the one before, in all channels or in one quantity alone, where that is the file's habit; 0 elsewhere. */
  slower_share: number;
}

/**
 * Finds rows that were lost on the way and filled in by the logger: all channels zero or one other number (-999, 99.99, -32768), or the
 * last row again and again with a jump at the end while the sensor moves.
 * @param columns channels of one sensor, n rows each: acceleration, then angular rate where there is one
 * @param to_si factor of every channel, m/s2 or rad/s
 * @returns null where there are none and the file has no such habit
 */
export function findFilledRows(columns: Float64Array[], n: number, to_si: number[]): FilledRows | null {
  const filled = new Uint8Array(n);
  let count = 0;
  let repeated = 0;
  const same = (a: number, b: number) => columns.every((column) => column[a] === column[b]);
  const [first] = columns;
  const oneNumber = (row: number) => columns.every((column) => column[row] === first[row]);
  // Three axes may agree by chance; those of two quantities never do.
  const two_quantities = columns.length > 3;
  const mark = (from: number, to: number) => {
    filled.fill(1, from, to);
    count += to - from;
  };
  const ends = columns.map((column) => extremes(column, n));
  // All axes at the end of their range: a blow beyond it, which is read as often as it lasts.
  const clipped = (row: number) => columns.every((column, i) => ends[i].includes(column[row]));
  const noisy = pairsAlike(n, same) < CHANCE * n;
  for (let row = 0; row < n; ) {
    let end = row + 1;
    while (end < n && same(row, end)) end++;
    repeated += end - row - 1;
    if (oneNumber(row) && (first[row] === 0 || two_quantities)) {
      if (first[row] !== 0 || end - row >= FEWEST_ZERO) mark(row, end);
    } else if (end - row > FEWEST_HELD && !clipped(row)) {
      const jumped = end < n && jumps(columns, row, end, to_si);
      if (jumped || (noisy && end - row <= MOST_HELD)) mark(row + 1, end);
    }
    row = end;
  }
  if (repeated > MOST_SHARE * n && n > 100 && isEven(columns, n, same))
    return { filled: new Uint8Array(n), count: 0, slower_share: repeated / n };
  const slower_share = two_quantities ? slowerOfTwo(columns, n) : 0;
  return count > 0 || slower_share > 0 ? { filled, count, slower_share } : null;
}

function extremes(column: Float64Array, n: number): [number, number] {
  let [least, most] = [Infinity, -Infinity];
  for (let row = 0; row < n; row++) {
    if (column[row] < least) least = column[row];
    if (column[row] > most) most = column[row];
  }
  return [least, most];
}

/** Rows that repeat the one before, longer stretches of them left out. */
function pairsAlike(n: number, same: (a: number, b: number) => boolean): number {
  let alike = 0;
  for (let row = 0; row < n; ) {
    let end = row + 1;
    while (end < n && same(row, end)) end++;
    if (end - row <= FEWEST_HELD) alike += end - row - 1;
    row = end;
  }
  return alike;
}

/** Share of the rows in which acceleration or angular rate alone repeats the one before, where it was slower than the other; else 0. */
function slowerOfTwo(columns: Float64Array[], n: number): number {
  if (n <= 100) return 0;
  for (const three of [columns.slice(0, 3), columns.slice(3)]) {
    const same = (a: number, b: number) => three.every((column) => column[a] === column[b]);
    const [first] = three;
    let repeated = 0;
    for (let row = 1; row < n; row++) if (first[row] === first[row - 1] && same(row - 1, row)) repeated++;
    if (repeated > MOST_SHARE * n && isEven(three, n, same)) return repeated / n;
  }
  return 0;
}

/** True where nearly all runs of equal rows are of one length: a slower sensor in a faster file. */
function isEven(columns: Float64Array[], n: number, same: (a: number, b: number) => boolean): boolean {
  const lengths = new Map<number, number>();
  let runs = 0;
  let moving = 0;
  for (let row = 0; row < n; ) {
    let end = row + 1;
    while (end < n && same(row, end)) end++;
    lengths.set(end - row, (lengths.get(end - row) ?? 0) + 1);
    if (columns.some((column) => end < n && column[end] !== column[row])) moving++;
    runs++;
    row = end;
  }
  const usual = Math.max(...[...lengths].filter(([length]) => length > 1).map(([, count]) => count), 0);
  return moving > 20 && usual > 0.6 * runs;
}

function jumps(columns: Float64Array[], from: number, to: number, to_si: number[]): boolean {
  return columns.some((column, channel) => {
    const least = channel < 3 ? JUMP.acc_mps2 : JUMP.gyr_radps;
    return Math.abs((column[to] - column[from]) * to_si[channel]) > least;
  });
}

/** Takes filled rows out of the times of one sensor, block after block, and leaves gaps where they were. */
export class GapsOfFilledRows {
  /** Time of the last row that stayed, NaN before the first; samples lost since, null where nobody can tell how many. */
  private last = Number.NaN;
  private lost: number | null = 0;

  /**
   * @param built times of every row of a block, filled ones among them
   * @param filled by input row; null where none was
   */
  leaveOut(built: BuiltTime, filled: Uint8Array | null): Pick<BuiltTime, 'time_s' | 'order' | 'gaps'> {
    if (!filled && this.lost === 0) {
      if (built.time_s.length > 0) this.last = built.time_s[built.time_s.length - 1];
      return built;
    }
    const gapBefore = new Map(built.gaps.map((gap) => [gap.end_s, gap]));
    const gaps: Gap[] = [];
    const kept: number[] = [];
    for (const [i, time] of built.time_s.entries()) {
      const lost = gapBefore.has(time) ? gapBefore.get(time)!.lost_samples : 0;
      this.lost = this.lost === null || lost === null ? null : this.lost + lost;
      if (filled?.[built.order ? built.order[i] : i] === 1) {
        if (this.lost !== null) this.lost++;
        continue;
      }
      if (this.lost !== 0 && !Number.isNaN(this.last))
        gaps.push({ start_s: this.last, end_s: time, lost_samples: this.lost });
      this.last = time;
      this.lost = 0;
      kept.push(i);
    }
    return {
      time_s: Float64Array.from(kept, (i) => built.time_s[i]),
      order: Int32Array.from(kept, (i) => (built.order ? built.order[i] : i)),
      gaps,
    };
  }
}
