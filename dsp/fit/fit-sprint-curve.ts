import { gaussNewton, type Linearised } from './gauss-newton.ts';
import { distanceAt, distanceGradient, type SprintCurve, speedAt, timeAtDistance } from './sprint-curve.ts';

/** A time at a known distance, on the course's clock. */
export interface TimedDistance {
  distance_m: number;
  time_s: number;
  /** Standard uncertainty of the time, s. Relative sizes matter for the curve, absolute ones for its uncertainty. */
  time_s_u: number;
}

/** Something known of a parameter before looking at the data. u = 0 fixes it. */
export interface Prior {
  value: number;
  u: number;
}

export interface SprintFitOptions {
  /** Clock zero minus first movement, s. Default fixed at 0: the clock starts with the movement. */
  time_shift?: Prior;
  /** Distances count from where the athlete was at clock zero (a gate that the body breaks), not from the start. */
  from_clock_zero?: boolean;
  /** Needed when there is only one timed distance; otherwise optional. u is relative: 0.2 means 20 %. */
  tau?: Prior;
  /** More rows to fit together with the times, see `ExtraRows`. */
  extra?: ExtraRows;
  /** Where the search for vmax begins when there is no timed distance, only extra rows. */
  vmax_start_mps?: number;
}

/**
 * Further evidence on the same curve: contributes rows, already divided by their standard uncertainty, and may bring
 * parameters of its own after (vmax, tau, shift).
 */
export interface ExtraRows {
  start: number[];
  linearise: (curve: SprintCurve, time_shift_s: number, own: readonly number[]) => Linearised;
}

export interface SprintFit extends SprintCurve {
  time_shift_s: number;
  /** Way from the start to where the distances count from, m. */
  run_at_clock_zero_m: number;
  /** Covariance of (vmax, tau, time shift) from the stated uncertainties; a fixed shift has zeros. */
  covariance: number[][];
  /** Root mean square of the time residuals, s. */
  residual_s: number;
  /** Values of the extra rows' own parameters, and their standard uncertainties. */
  own: number[];
  own_u: number[];
}

/**
 * Variance of a quantity by the curve's parameters.
 * @param g its derivatives by vmax, s/m times its unit, and by tau, 1/s times its unit
 * @returns in the square of its unit
 */
export function parameterVariance({ covariance: c }: SprintFit, g: { vmax: number; tau: number }): number {
  return Math.max(0, g.vmax * g.vmax * c[0][0] + 2 * g.vmax * g.tau * c[0][1] + g.tau * g.tau * c[1][1]);
}

/** Slowest and fastest approach to top speed that a search considers, s. */
const [TAU_LOW_S, TAU_HIGH_S] = [0.15, 8];

/**
 * Fits the mono-exponential sprint to times at known distances. The residuals are those of TIME, because the gates'
 * places are exact and the times are not (minimising residuals of distance gives other parameters). Start values come
 * from variable projection: for each tau on a grid the best vmax of the distance residuals is a linear problem with one
 * unknown. Gauss-Newton then polishes all parameters together.
 * @param splits with one, a prior on tau is needed; with none, extra rows as well
 * @returns null where the times fit no such sprint (not increasing, or faster at the start than at the end)
 */
export function fitSprintCurve(splits: readonly TimedDistance[], options: SprintFitOptions = {}): SprintFit | null {
  const shift: Prior = options.time_shift ?? { value: 0, u: 0 };
  const usable = splits.filter((s) => s.distance_m > 0 && s.time_s + shift.value > 0 && s.time_s_u > 0);
  if (usable.length !== splits.length) return null;
  if (usable.length < 2 && !options.tau) return null;
  if (usable.length === 0 && !(options.extra && options.vmax_start_mps)) return null;
  const start =
    usable.length === 0
      ? { vmax_mps: options.vmax_start_mps!, tau_s: options.tau!.value }
      : startValues(usable, shift.value, options.tau);
  if (!start) return null;

  const free = shift.u > 0;
  const own = options.extra?.start ?? [];
  const split = (p: readonly number[]) => ({
    curve: { vmax_mps: p[0], tau_s: p[1] },
    shift_s: free ? p[2] : shift.value,
    own: p.slice(free ? 3 : 2),
  });
  const fit = gaussNewton([start.vmax_mps, start.tau_s, ...(free ? [shift.value] : []), ...own], (p) => {
    const { curve, shift_s, own: mine } = split(p);
    if (!(curve.vmax_mps > 0 && curve.tau_s > TAU_LOW_S / 3 && curve.tau_s < TAU_HIGH_S * 3)) return null;
    const rows = timeRows(usable, curve, shift_s, options.from_clock_zero);
    if (free) addRow(rows, (shift.value - shift_s) / shift.u, [0, 0, 1 / shift.u]);
    if (options.tau) {
      const { value, u } = options.tau;
      addRow(rows, Math.log(value / curve.tau_s) / u, [0, 1 / (curve.tau_s * u), 0]);
    }
    if (options.extra) appendRows(rows, options.extra.linearise(curve, shift_s, mine), mine.length);
    // A fixed shift has no column.
    return free ? rows : { residuals: rows.residuals, columns: rows.columns.filter((_, k) => k !== 2) };
  });
  if (!fit) return null;
  const result = split(fit.parameters);
  const run_m = options.from_clock_zero ? distanceAt(result.curve, result.shift_s) : 0;
  const residuals = usable.map((s) => s.time_s + result.shift_s - timeAtDistance(result.curve, s.distance_m + run_m));
  const c = fit.unscaled_covariance;
  return {
    ...result.curve,
    time_shift_s: result.shift_s,
    run_at_clock_zero_m: run_m,
    covariance: [0, 1, 2].map((i) => [0, 1, 2].map((j) => (free || (i < 2 && j < 2) ? c[i][j] : 0))),
    residual_s: Math.sqrt(residuals.reduce((sum, r) => sum + r * r, 0) / Math.max(1, residuals.length)),
    own: result.own,
    own_u: result.own.map((_, k) => Math.sqrt(c[(free ? 3 : 2) + k][(free ? 3 : 2) + k])),
  };
}

function startValues(splits: readonly TimedDistance[], shift_s: number, tau?: Prior): SprintCurve | null {
  if (tau && splits.length < 2) return { vmax_mps: bestVmax(splits, shift_s, tau.value), tau_s: tau.value };
  let best: SprintCurve | null = null;
  let bestCost = Number.POSITIVE_INFINITY;
  const steps = 120;
  for (let i = 0; i <= steps; i++) {
    const tau_s = TAU_LOW_S * (TAU_HIGH_S / TAU_LOW_S) ** (i / steps);
    const curve = { vmax_mps: bestVmax(splits, shift_s, tau_s), tau_s };
    const cost = timeRows(splits, curve, shift_s).residuals.reduce((sum, r) => sum + r * r, 0);
    if (cost < bestCost) [best, bestCost] = [curve, cost];
  }
  return best;
}

/** Least squares of distance for vmax at a given tau. */
function bestVmax(splits: readonly TimedDistance[], shift_s: number, tau_s: number): number {
  let [gg, gd] = [0, 0];
  for (const { distance_m, time_s } of splits) {
    const g = distanceAt({ vmax_mps: 1, tau_s }, time_s + shift_s);
    gg += g * g;
    gd += g * distance_m;
  }
  return gd / gg;
}

function timeRows(
  splits: readonly TimedDistance[],
  curve: SprintCurve,
  shift_s: number,
  from_clock_zero = false,
): Linearised {
  const rows: Linearised = { residuals: [], columns: [[], [], []] };
  const run_m = from_clock_zero ? distanceAt(curve, shift_s) : 0;
  const runGradient = from_clock_zero ? distanceGradient(curve, Math.max(0, shift_s)) : { vmax: 0, tau: 0 };
  const zeroSpeed = from_clock_zero ? speedAt(curve, shift_s) : 0;
  for (const { distance_m, time_s, time_s_u } of splits) {
    const t = timeAtDistance(curve, distance_m + run_m);
    const v = speedAt(curve, t);
    const gradient = distanceGradient(curve, t);
    // The clock shows t - shift; at a fixed distance dt/dp = -(dx/dp) / v, and the way before clock zero moves with p
    // as well.
    addRow(rows, (time_s - (t - shift_s)) / time_s_u, [
      (runGradient.vmax - gradient.vmax) / v / time_s_u,
      (runGradient.tau - gradient.tau) / v / time_s_u,
      (zeroSpeed / v - 1) / time_s_u,
    ]);
  }
  return rows;
}

function addRow(rows: Linearised, residual: number, derivatives: number[]): void {
  rows.residuals.push(residual);
  derivatives.forEach((d, k) => {
    rows.columns[k].push(d);
  });
}

/** Puts further rows below; own parameters get columns that are zero above. */
function appendRows(rows: Linearised, extra: Linearised, ownParameters: number): void {
  const above = rows.residuals.length;
  rows.residuals.push(...extra.residuals);
  for (let k = 0; k < 3; k++) rows.columns[k].push(...extra.columns[k]);
  for (let k = 3; k < 3 + ownParameters; k++)
    rows.columns.push([...new Array<number>(above).fill(0), ...extra.columns[k]]);
}
