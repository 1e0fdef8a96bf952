import { derivative } from '../../filters/index.ts';
import { argMax, argMin, best, localMaxima, vertex } from '../../numeric/peaks.ts';
import type { Candidates } from './delay-of-neighbours.ts';

/**
 * Steep rises of the slow vertical acceleration in [from, to). A heel's comes before the forefoot's.
 * @param up vertical acceleration of the stride, low-passed, m/s2
 * @param rate_hz samples a second
 * @param from index of the frame
 * @param to index of the frame
 * @param part rises less steep than this part of the steepest are left out
 * @param first_part the first that is this part as steep as the steepest is the likeliest
 * @returns fractional indices, ascending; null when there is none
 */
export function steepRises(
  up: Float64Array,
  rate_hz: number,
  from: number,
  to: number,
  part: number,
  first_part: number,
): Candidates | null {
  const slope = derivative(up, rate_hz);
  const rises = localMaxima(slope, from, to).filter((i) => slope[i] > 0);
  const steepest = best(rises, (i) => slope[i]);
  if (steepest < 0) return null;
  const strong = rises.filter((i) => slope[i] >= part * slope[steepest]);
  const likely = strong.findIndex((i) => slope[i] >= first_part * slope[steepest]);
  return { at: strong.map((i) => vertex(slope, i)), likely };
}

/**
 * The steepest rise before each peak of the slow vertical acceleration in [from, to). The first peak that stands out far
 * enough above the trough before is the likeliest.
 * @param up vertical acceleration of the stride, low-passed, m/s2
 * @param rate_hz samples a second
 * @param from index of the frame
 * @param to index of the frame
 * @param part peaks that stand out less than this part of the highest are left out
 * @param first_part the first that stands out this part as high as the highest is the likeliest
 * @param reach how far before a peak its trough and its rise lie, in samples
 * @returns fractional indices, ascending; null when there is none
 */
export function risesBeforePeaks(
  up: Float64Array,
  rate_hz: number,
  from: number,
  to: number,
  part: number,
  first_part: number,
  reach: number,
): Candidates | null {
  const height = (i: number): number => up[i] - up[argMin(up, Math.max(0, from - reach), i)];
  const tops = localMaxima(up, from, to);
  const highest = best(tops, height);
  if (highest < 0) return null;
  const strong = tops.filter((i) => height(i) >= part * height(highest));
  const slope = derivative(up, rate_hz);
  const likely = strong.findIndex((i) => height(i) >= first_part * height(highest));
  return { at: strong.map((top) => vertex(slope, argMax(slope, top - reach, top + 1))), likely };
}
