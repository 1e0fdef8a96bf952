import type { Onset } from './find-onsets.ts';

/** Impacts that both feet felt at once: a jump's landing, a knock of both sensors. */
export interface SharedImpacts {
  /** When the right's first sample was, on the left's clock, at the middle of these impacts. */
  lag_s: number;
  /** True where both feet were calm before the first and after the last: nothing else was going on. */
  closed: boolean;
  pairs: { left_s: number; right_s: number; strength: number }[];
}

/** Landings of one jump differ by up to this between the feet, and onsets by a few ms more. */
const TOGETHER_S = 0.025;
/** Impacts of one group follow each other within this. */
const GROUP_S = 3;
/** A group begins after a calm of at least this. */
const CALM_S = 0.6;
const STARTS_LOOKED_AT = 3;
const MOST_STARTS = 400;

/**
 * Lags at which a run of impacts, one after the other, falls together on both feet.
 * @returns the best first: those with calm around them, then more impacts, then the tighter ones
 * Method: every onset near the start of a group on the left is laid on every such onset on the right; then the two trains are
 * walked along for as long as each onset of one has its partner in the other.
 */
export function sharedImpacts(left: Onset[], right: Onset[]): SharedImpacts[] {
  const found: SharedImpacts[] = [];
  for (const i of groupStarts(left)) {
    for (const j of groupStarts(right)) {
      const impacts = walk(left, right, i, j);
      if (impacts && (impacts.pairs.length > 1 || impacts.closed)) found.push(impacts);
    }
  }
  found.sort((a, b) => worth(b) - worth(a) || spread(a) - spread(b));
  const kept: SharedImpacts[] = [];
  for (const impacts of found) {
    if (kept.every((other) => Math.abs(other.lag_s - impacts.lag_s) > TOGETHER_S)) kept.push(impacts);
  }
  return kept;
}

/** Calm around a group is worth as much as two impacts more. */
function worth({ closed, pairs }: SharedImpacts): number {
  return pairs.length + (closed ? 2 : 0);
}

/** Impacts after `from_s` that fall together at this lag, give or take what a drifting clock may add. */
export function laterImpacts(
  left: Onset[],
  right: Onset[],
  lag_s: number,
  from_s: number,
  most_drift: number,
): SharedImpacts[] {
  const found: SharedImpacts[] = [];
  for (const i of groupStarts(left)) {
    const away = left[i].time_s - from_s;
    if (away < 2 * GROUP_S) continue;
    const reach = TOGETHER_S + most_drift * away;
    for (const j of groupStarts(right)) {
      if (Math.abs(left[i].time_s - right[j].time_s - lag_s) > reach) continue;
      const impacts = walk(left, right, i, j);
      if (impacts && impacts.pairs.length >= 2) found.push(impacts);
    }
  }
  found.sort((a, b) => b.pairs.length - a.pairs.length);
  return found;
}

/** Root mean square of the pairs' differences about their mean, seconds. */
export function spread(impacts: SharedImpacts): number {
  const { pairs, lag_s } = impacts;
  return Math.sqrt(pairs.reduce((sum, pair) => sum + (pair.left_s - pair.right_s - lag_s) ** 2, 0) / pairs.length);
}

function groupStarts(onsets: Onset[]): number[] {
  const starts = new Set<number>();
  for (let i = 0; i < onsets.length; i++) {
    if (i > 0 && onsets[i].time_s - onsets[i - 1].time_s < CALM_S) continue;
    for (let k = i; k < Math.min(onsets.length, i + STARTS_LOOKED_AT); k++) starts.add(k);
  }
  return [...starts].slice(0, MOST_STARTS);
}

/** Goes along both trains from one pair for as long as each onset has its partner. */
function walk(left: Onset[], right: Onset[], i: number, j: number): SharedImpacts | null {
  const lag = left[i].time_s - right[j].time_s;
  const pairs: SharedImpacts['pairs'] = [];
  const first = left[i].time_s;
  const before = Math.max(left[i - 1]?.time_s ?? -CALM_S * 2, (right[j - 1]?.time_s ?? -CALM_S * 2 - lag) + lag);
  let last = first;
  let next = Number.POSITIVE_INFINITY;
  for (; ; i++, j++) {
    const a = left[i]?.time_s ?? Number.POSITIVE_INFINITY;
    const b = (right[j]?.time_s ?? Number.POSITIVE_INFINITY) + lag;
    next = Math.min(a, b);
    if (next - last > GROUP_S || !(Math.abs(a - b) <= TOGETHER_S)) break;
    pairs.push({
      left_s: left[i].time_s,
      right_s: right[j].time_s,
      strength: Math.min(left[i].strength, right[j].strength),
    });
    last = Math.max(a, b);
  }
  if (pairs.length === 0) return null;
  const lag_s = pairs.reduce((sum, pair) => sum + pair.left_s - pair.right_s, 0) / pairs.length;
  return { lag_s, closed: first - before >= CALM_S && next - last >= CALM_S, pairs };
}
