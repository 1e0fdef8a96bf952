import { quantile } from '../numeric/statistics.ts';
import type { Interval } from './contact-model.ts';

/** One error of a model on a contact of a runner it has never seen. */
export interface LeftOutError {
  /** Estimate minus truth, s. */
  error_s: number;
  /** Standard deviation between the trees, s. */
  spread_s: number;
  runner: string;
  /** Errors of one foot in one recording share this. */
  foot: string;
}

const HOLD = 0.95;
const NORMAL_95 = 1.959964;

/** Parts of the trees' spread that are tried as a scale of the error. */
const PER_SPREAD = [0, 0.25, 0.5, 0.75, 1, 1.25, 1.5];
/** Floors that are tried, as shares of the errors' root mean square. */
const FLOORS = [0.25, 0.4, 0.55, 0.7, 0.85, 1];

/**
 * Interval from left-out errors (normalised split conformal: Lei J et al. (2018) J Am Stat Assoc 113:1094, doi
 * 10.1080/01621459.2017.1307116). The scale is the floor and spread under which the errors are likeliest to be normal; the factor
 * makes 1.96 of it hold 95 % of the errors, where every runner counts alike and the next one adds what a further runner may
 * differ by.
 */
export function calibrate(errors: readonly LeftOutError[]): Interval {
  const rms = Math.sqrt(errors.reduce((sum, { error_s }) => sum + error_s ** 2, 0) / errors.length);
  let best = { floor_s: rms, per_spread: 0 };
  let likeliest = Number.NEGATIVE_INFINITY;
  for (const floor of FLOORS) {
    for (const per_spread of PER_SPREAD) {
      const likelihood = likelihoodOf(errors, floor * rms, per_spread);
      if (likelihood > likeliest) [likeliest, best] = [likelihood, { floor_s: floor * rms, per_spread }];
    }
  }
  const shares = errors.map(({ error_s, spread_s }) => Math.abs(error_s) / scaleOf(best, spread_s));
  const runners = new Set(errors.map(({ runner }) => runner)).size;
  const level = Math.min(0.999, HOLD * (1 + 1 / (runners * runners)));
  return {
    ...best,
    factor: quantile(shares, level) / NORMAL_95,
    repeatable: repeatablePart(errors, best),
  };
}

function scaleOf({ floor_s, per_spread }: Pick<Interval, 'floor_s' | 'per_spread'>, spread_s: number): number {
  return Math.hypot(floor_s, per_spread * spread_s);
}

/** Greatest log-likelihood of normal errors whose standard deviations go as the scale. */
function likelihoodOf(errors: readonly LeftOutError[], floor_s: number, per_spread: number): number {
  let [squares, logs] = [0, 0];
  for (const { error_s, spread_s } of errors) {
    const scale = scaleOf({ floor_s, per_spread }, spread_s);
    squares += (error_s / scale) ** 2;
    logs += Math.log(scale);
  }
  return -0.5 * errors.length * Math.log(squares / errors.length) - logs;
}

/** Share of the scaled errors' root mean square that differs from contact to contact of one foot. */
function repeatablePart(errors: readonly LeftOutError[], scale: Pick<Interval, 'floor_s' | 'per_spread'>): number {
  const feet = new Map<string, number[]>();
  for (const { error_s, spread_s, foot } of errors) {
    const own = feet.get(foot) ?? [];
    own.push(error_s / scaleOf(scale, spread_s));
    feet.set(foot, own);
  }
  let [within, freedom, all] = [0, 0, 0];
  for (const own of feet.values()) {
    const mean = own.reduce((a, b) => a + b, 0) / own.length;
    for (const value of own) {
      within += (value - mean) ** 2;
      all += value ** 2;
    }
    freedom += own.length - 1;
  }
  return Math.min(1, Math.sqrt(within / freedom / (all / errors.length)));
}
