import { studentQuantile } from '../numeric/distributions.ts';
import { fitLine } from '../numeric/least-squares.ts';
import { mean } from '../numeric/statistics.ts';

export interface DropOff {
  /** Mean of the first two repetitions: fresh. */
  fresh: number;
  /** Mean of the last two. */
  last: number;
  /** Last minus fresh, and in per cent of fresh. */
  change: number;
  change_percent: number;
  /** Change a repetition by a straight line, with its 95 % interval; null with fewer than four repetitions. */
  slope: { value: number; low: number; high: number } | null;
  /** Of the last repetitions, how many in a row were beyond the coach's limit. */
  beyond_limit_in_a_row: number;
  /** The coach's rule says stop. */
  stop: boolean;
}

export interface StopRule {
  /** Worsening against fresh, per cent, from which a repetition counts. */
  limit_percent: number;
  /** So many in a row mean stop. */
  in_a_row: number;
  /** Which way is worse: more (contact time) or less (speed). */
  worse: 'more' | 'less';
}

/** Fresh is what the first repetitions show. */
const FRESH = 2;

/**
 * How one quantity drifts through a session of like repetitions, and whether the coach's own rule says stop.
 * @param values repetitions of equal effort and course, in order
 * @returns null with fewer than three repetitions
 */
export function sessionDropOff(values: readonly number[], rule: StopRule): DropOff | null {
  if (values.length < FRESH + 1) return null;
  const fresh = mean(values.slice(0, FRESH));
  const last = mean(values.slice(-2));
  const worsening = (v: number): number => (100 * (v - fresh) * (rule.worse === 'more' ? 1 : -1)) / Math.abs(fresh);
  let row = 0;
  for (let i = values.length - 1; i >= FRESH && worsening(values[i]) >= rule.limit_percent; i--) row++;
  const line =
    values.length >= 4
      ? fitLine(
          values.map((_, i) => i),
          values,
        )
      : null;
  const half = line ? studentQuantile(0.975, line.degrees_of_freedom) * line.slope_se : 0;
  return {
    fresh,
    last,
    change: last - fresh,
    change_percent: (100 * (last - fresh)) / Math.abs(fresh),
    slope: line && { value: line.slope, low: line.slope - half, high: line.slope + half },
    beyond_limit_in_a_row: row,
    stop: row >= rule.in_a_row,
  };
}
