import { mean, variance } from '../numeric/statistics.ts';
import { studentQuantile } from '../numeric/distributions.ts';

/**
 * Published ways to say how unlike two sides are, all in per cent. Sources: symmetry index, Robinson 1987; bilateral
 * asymmetry index and difference of the larger, Bishop 2018; symmetry angle, Zifchock 2008 (from memory).
 */
export interface AsymmetryIndices {
  /** 100 |L - R| / mean of both. */
  symmetry_index: number;
  /** 100 (L - R) / (L + R), signed: positive when left is larger. */
  bilateral_asymmetry: number;
  /** 100 (max - min) / max. */
  percentage_of_larger: number;
  /** |45 deg - atan(L / R)| / 90 deg, in per cent. */
  symmetry_angle: number;
}

/** @param left above 0 @param right above 0 */
export function asymmetryIndices(left: number, right: number): AsymmetryIndices {
  return {
    symmetry_index: (100 * Math.abs(left - right)) / ((left + right) / 2),
    bilateral_asymmetry: (100 * (left - right)) / (left + right),
    percentage_of_larger: (100 * Math.abs(left - right)) / Math.max(left, right),
    symmetry_angle: (100 * Math.abs(45 - (Math.atan2(left, right) * 180) / Math.PI)) / 90,
  };
}

/** Left against right within a repetition or session, beside the variation within each side. */
export interface SideDifference {
  left: SideSpread;
  right: SideSpread;
  /** Left minus right. */
  difference: number;
  /** 95 % confidence interval of the difference (Welch). */
  low: number;
  high: number;
  indices: AsymmetryIndices | null;
  /** Variation within a side, pooled, in the quantity's unit: what the difference has to be seen against. */
  within_side_sd: number;
  /** The interval leaves out zero: more than chance. */
  beyond_chance: boolean;
  /**
   * The difference exceeds the variation within a side as well: Exell's criterion for calling it real (Bishop 2016,
   * Strength Cond J 38(6):27-32). Neither is a sign of injury.
   */
  beyond_within_side: boolean;
}

export interface SideSpread {
  mean: number;
  sd: number;
  n: number;
  /** Coefficient of variation, per cent; null for quantities that are not above zero. */
  cv_percent: number | null;
}

/**
 * @param left values of single contacts
 * @param right values of single contacts
 * @returns null with fewer than two values on a side
 */
export function sideDifference(left: readonly number[], right: readonly number[]): SideDifference | null {
  if (left.length < 2 || right.length < 2) return null;
  return compareSides(spread(left), spread(right));
}

/**
 * As `sideDifference`, where only mean, spread and number of each side are known.
 * @returns as `sideDifference`; null where a side has too few contacts
 */
export function compareSides(l: SideSpread, r: SideSpread): SideDifference | null {
  if (l.n < 2 || r.n < 2) return null;
  const difference = l.mean - r.mean;
  const [pl, pr] = [l.sd ** 2 / l.n, r.sd ** 2 / r.n];
  const se = Math.sqrt(pl + pr);
  const df = se > 0 ? (pl + pr) ** 2 / (pl ** 2 / (l.n - 1) + pr ** 2 / (r.n - 1)) : l.n + r.n - 2;
  const half = studentQuantile(0.975, df) * se;
  const pooled = Math.sqrt(((l.n - 1) * l.sd ** 2 + (r.n - 1) * r.sd ** 2) / (l.n + r.n - 2));
  return {
    left: l,
    right: r,
    difference,
    low: difference - half,
    high: difference + half,
    indices: l.mean > 0 && r.mean > 0 ? asymmetryIndices(l.mean, r.mean) : null,
    within_side_sd: pooled,
    beyond_chance: Math.abs(difference) > half,
    beyond_within_side: Math.abs(difference) > Math.max(half, pooled),
  };
}

function spread(values: readonly number[]): SideSpread {
  const m = mean(values);
  const sd = Math.sqrt(variance(values));
  return { mean: m, sd, n: values.length, cv_percent: m > 0 ? (100 * sd) / m : null };
}
