import type { LandingStride } from './segment-features.ts';

/** Instants at which an event of one stride may be, and the likeliest of them; fractional indices of the frame. */
export interface Candidates {
  at: number[];
  likely: number;
}

/** Spread of an event's delay from stride to stride, in strides: 7 ms of a jog. */
const DELAY_SD = 0.01;

/**
 * For every stride the candidate that comes as long after the leg's turn as in the strides around it. That delay is the one
 * which most of the strides have a candidate at, the likeliest of each counting twice.
 * @param neighbours how many strides on either side are asked
 * @returns index of the candidate; null where there is none
 */
export function byDelayOfNeighbours(
  strides: readonly LandingStride[],
  candidates: readonly (Candidates | null)[],
  neighbours: number,
): (number | null)[] {
  const delays = candidates.map((c, k) => {
    const { features, frame } = strides[k];
    return c ? c.at.map((at) => (at - features.turn) / (frame.stride_s * frame.rate_hz)) : [];
  });
  const votes = candidates.map((c, k) => delays[k].map((_, j) => (c && j === c.likely ? 2 : 1)));
  return candidates.map((c, k) => {
    if (!c || c.at.length === 0) return null;
    const around = range(Math.max(0, k - neighbours), Math.min(candidates.length, k + neighbours + 1));
    const support = (delay: number): number =>
      around.reduce((sum, i) => {
        const agrees = delays[i].map((d, j) => votes[i][j] * Math.exp(-0.5 * ((d - delay) / DELAY_SD) ** 2));
        return sum + Math.max(0, ...agrees);
      }, 0);
    // Whose delay is usual is asked of the strides' likeliest candidates and of this stride's own.
    const asked = [
      ...around.flatMap((i) => (candidates[i]?.likely !== undefined ? [delays[i][candidates[i].likely]] : [])),
      ...delays[k],
    ];
    const backing = asked.map(support);
    const usual = asked[backing.indexOf(Math.max(...backing))];
    const distance = (j: number): number => Math.abs(delays[k][j] - usual);
    return c.at.reduce((nearest, _, j) => (distance(j) < distance(nearest) ? j : nearest), 0);
  });
}

function range(from: number, to: number): number[] {
  return Array.from({ length: to - from }, (_, i) => from + i);
}
