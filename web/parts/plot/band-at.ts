import type { BandPoint } from './marks.tsx';

/**
 * Normal variation at one place of the profile, linear between its points.
 * @param points in rising order of `at`
 * @returns null outside of the points
 */
export function bandAt(points: BandPoint[], at: number): BandPoint | null {
  if (points.length === 0 || at < points[0].at || at > points[points.length - 1].at) return null;
  const after = points.findIndex((point) => point.at >= at);
  const high = points[after];
  if (high.at === at || after === 0) return high;
  const low = points[after - 1];
  const share = (at - low.at) / (high.at - low.at);
  const mix = (a: number, b: number) => a + (b - a) * share;
  return {
    at,
    centre: mix(low.centre, high.centre),
    low: mix(low.low, high.low),
    high: mix(low.high, high.high),
    flag_from: mix(low.flag_from, high.flag_from),
  };
}
