import { mean } from '../numeric/statistics.ts';

/** A jump of the level. */
export interface ChangePoint {
  /** Index of the first value at the new level. */
  index: number;
  before: number;
  after: number;
}

/** A level holds for at least this many sessions, else it is a good or a bad day. */
const SHORTEST = 3;
/**
 * What another level must gain, in units of variance times log n. 3.5 keeps false jumps in series without any to
 * 5 % at 8 to 12 sessions and fewer later (tests/dsp/athlete/trend.test.ts measures it).
 */
const PENALTY = 3.5;

/**
 * Jumps of the mean of a series, by optimal partitioning: the division into levels that makes squared deviations plus a
 * penalty a level smallest, found exactly by dynamic programming. The scatter is measured from differences of
 * neighbours, which jumps hardly touch.
 * Source: Jackson et al. 2005, IEEE Signal Process Lett 12:105-108 (from memory).
 * @param values one a session, oldest first
 * @returns in order; none for fewer than six values or without scatter
 */
export function changePoints(values: readonly number[]): ChangePoint[] {
  const n = values.length;
  if (n < 2 * SHORTEST) return [];
  const penalty = jumpPenalty(values);
  if (!(penalty > 0)) return [];
  const sums = new Float64Array(n + 1);
  const squares = new Float64Array(n + 1);
  const centre = mean(values);
  values.forEach((v, i) => {
    sums[i + 1] = sums[i] + (v - centre);
    squares[i + 1] = squares[i] + (v - centre) ** 2;
  });
  const cost = (from: number, to: number): number =>
    squares[to] - squares[from] - (sums[to] - sums[from]) ** 2 / (to - from);
  const best = new Float64Array(n + 1).fill(Number.POSITIVE_INFINITY);
  const previous = new Int32Array(n + 1);
  best[0] = -penalty;
  for (let to = SHORTEST; to <= n; to++) {
    for (let from = 0; from <= to - SHORTEST; from++) {
      const total = best[from] + cost(from, to) + penalty;
      if (total < best[to]) [best[to], previous[to]] = [total, from];
    }
  }
  const starts: number[] = [];
  for (let to = n; to > 0; to = previous[to]) starts.unshift(previous[to]);
  return starts.slice(1).map((index, k) => ({
    index,
    before: mean(values.slice(starts[k], index)),
    after: mean(values.slice(index, starts[k + 2] ?? n)),
  }));
}

/**
 * What one more jump must take off the sum of squares.
 * @param values one a session
 * @returns in the square of their unit
 */
export function jumpPenalty(values: readonly number[]): number {
  return PENALTY * neighbourVariance(values) * Math.log(values.length);
}

/** Variance of single values from the differences of neighbours: sum d^2 / (2 (n - 1)). */
function neighbourVariance(values: readonly number[]): number {
  let sum = 0;
  for (let i = 1; i < values.length; i++) sum += (values[i] - values[i - 1]) ** 2;
  return sum / (2 * (values.length - 1));
}
