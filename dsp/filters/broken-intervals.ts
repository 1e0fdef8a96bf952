import type { Gap } from '../../shared/sample-block.ts';

/**
 * Median of the first intervals: the nominal rate may differ from the stamps'.
 * @param time_s increasing stamps, s
 * @param otherwise_s where there is no interval, s
 * @returns s
 */
export function typicalInterval(time_s: Float64Array, otherwise_s = Number.NaN): number {
  const intervals: number[] = [];
  for (let k = 1; k < time_s.length && intervals.length < 1001; k++) intervals.push(time_s[k] - time_s[k - 1]);
  intervals.sort((a, b) => a - b);
  return intervals.length > 0 ? intervals[intervals.length >> 1] : otherwise_s;
}

/**
 * Where samples do not belong together.
 * @param time_s n increasing stamps, s
 * @param gaps listed losses, in order
 * @param longest_s an interval longer than this is a loss that nobody listed
 * @returns n numbers, 1 for each interval [k, k + 1] across which nothing may be interpolated
 */
export function brokenIntervals(time_s: Float64Array, gaps: readonly Gap[], longest_s: number): Uint8Array {
  const broken = new Uint8Array(Math.max(0, time_s.length));
  let g = 0;
  for (let k = 0; k + 1 < time_s.length; k++) {
    const middle = (time_s[k] + time_s[k + 1]) / 2;
    while (g < gaps.length && gaps[g].end_s <= middle) g++;
    const listed = g < gaps.length && gaps[g].start_s < middle;
    if (listed || time_s[k + 1] - time_s[k] > longest_s) broken[k] = 1;
  }
  return broken;
}
