import { variance } from '../numeric/statistics.ts';

/** One contact's value with its place in the order of steps. */
export interface SidedValue {
  step: number;
  side: 'left' | 'right';
  value: number;
}

export interface NeighbourDifference {
  /** Left minus right, mean over neighbouring pairs of steps. */
  difference: number;
  /** Its standard uncertainty from the scatter of the pairs; null with fewer than three of them. */
  difference_u: number | null;
  pairs: number;
}

/**
 * Left minus right between neighbouring steps, so that what changes along a repetition (speed, tiring) is no difference of
 * sides: each step is compared with the one before and the one after, and a steady change cancels between the two.
 * @param values in any order; a step without a value breaks the chain
 * @returns null without two neighbouring pairs, one that starts on either side
 */
export function neighbourDifference(values: readonly SidedValue[]): NeighbourDifference | null {
  const inOrder = [...values].sort((a, b) => a.step - b.step);
  const starting: Record<'left' | 'right', number[]> = { left: [], right: [] };
  for (let i = 1; i < inOrder.length; i++) {
    const [a, b] = [inOrder[i - 1], inOrder[i]];
    if (b.step !== a.step + 1 || a.side === b.side) continue;
    starting[a.side].push(a.side === 'left' ? a.value - b.value : b.value - a.value);
  }
  const [l, r] = [starting.left, starting.right];
  if (l.length === 0 || r.length === 0) return null;
  const mean = (x: readonly number[]) => x.reduce((sum, v) => sum + v, 0) / x.length;
  const pairs = l.length + r.length;
  // Pairs that start on the left lean one way with a steady change, those on the right the other: both kinds count alike.
  const difference = (mean(l) + mean(r)) / 2;
  if (pairs < 3) return { difference, difference_u: null, pairs };
  const within = [...l.map((v) => v - mean(l)), ...r.map((v) => v - mean(r))];
  const single = (variance(within) * (pairs - 1)) / Math.max(1, pairs - 2) / 2;
  // n steps in n - 1 overlapping pairs: inner steps count twice, the ends once.
  return { difference, difference_u: Math.sqrt((single * (4 * pairs - 2)) / pairs ** 2), pairs };
}
