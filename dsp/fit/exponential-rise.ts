import { gaussNewton } from './gauss-newton.ts';

/** y = amplitude (1 - exp(-rate x)). */
export interface ExponentialRise {
  amplitude: number;
  rate: number;
  amplitude_se: number;
  rate_se: number;
  residual_sum_of_squares: number;
  residual_sd: number;
  degrees_of_freedom: number;
}

/**
 * Fits y = amplitude (1 - exp(-rate x)) without start values, by variable projection: for any rate the best amplitude
 * is a linear problem with one unknown, so only the logarithm of the rate is searched (grid, then golden section), and
 * Gauss-Newton polishes both. General minimisers with poor starts miss this minimum silently (NIST BoxBOD).
 * Source: Golub and Pereyra 1973, SIAM J Numer Anal 10:413-432.
 * @param x positive values, at least two different ones
 * @param y n values, one for each x
 * @returns null when there is no minimum with a finite rate (a straight line, or a step)
 */
export function fitExponentialRise(x: ArrayLike<number>, y: ArrayLike<number>): ExponentialRise | null {
  const xs = Array.from(x);
  const ys = Array.from(y);
  const positive = xs.filter((v) => v > 0);
  if (positive.length < 2 || xs.length !== ys.length) return null;
  const logRate = minimiseOverLogRate((logRate) => projectedResidual(xs, ys, Math.exp(logRate)).rss, positive);
  if (logRate === null) return null;
  const rate = Math.exp(logRate);
  const fit = gaussNewton([projectedResidual(xs, ys, rate).amplitude, rate], ([a, b]) => {
    if (!(b > 0)) return null;
    return {
      residuals: ys.map((v, i) => v + a * Math.expm1(-b * xs[i])),
      columns: [xs.map((v) => -Math.expm1(-b * v)), xs.map((v) => a * v * Math.exp(-b * v))],
    };
  });
  if (!fit) return null;
  const { parameters, unscaled_covariance: c, residual_sum_of_squares: rss, degrees_of_freedom: df } = fit;
  const residual_sd = df > 0 ? Math.sqrt(rss / df) : Number.NaN;
  return {
    amplitude: parameters[0],
    rate: parameters[1],
    amplitude_se: residual_sd * Math.sqrt(c[0][0]),
    rate_se: residual_sd * Math.sqrt(c[1][1]),
    residual_sum_of_squares: rss,
    residual_sd,
    degrees_of_freedom: df,
  };
}

function projectedResidual(x: number[], y: number[], rate: number): { amplitude: number; rss: number } {
  let [gg, gy] = [0, 0];
  for (let i = 0; i < x.length; i++) {
    const g = -Math.expm1(-rate * x[i]);
    gg += g * g;
    gy += g * y[i];
  }
  const amplitude = gy / gg;
  let rss = 0;
  for (let i = 0; i < x.length; i++) rss += (y[i] + amplitude * Math.expm1(-rate * x[i])) ** 2;
  return { amplitude, rss };
}

/** Grid over rates from a thousandth of a bend over the whole range to a bend within a tenth of the first interval. */
function minimiseOverLogRate(cost: (logRate: number) => number, positive: number[]): number | null {
  const low = Math.log(1e-3 / Math.max(...positive));
  const high = Math.log(50 / Math.min(...positive));
  const steps = 200;
  let best = 0;
  let bestCost = Number.POSITIVE_INFINITY;
  // Of equally good rates the fastest: a step is fitted the better the faster, until rounding tells no more.
  for (let i = 0; i <= steps; i++) {
    const c = cost(low + ((high - low) * i) / steps);
    if (c <= bestCost) [best, bestCost] = [i, c];
  }
  if (best === 0 || best === steps) return null;
  const width = (high - low) / steps;
  return goldenSection(cost, low + (best - 1) * width, low + (best + 1) * width);
}

/**
 * Minimum of a function with one minimum between low and high, to about half the digits (Gauss-Newton does the rest).
 * @param cost asked within the bounds
 * @param low lower bound
 * @param high upper bound
 * @returns where the cost is least, in the unit of the bounds
 */
export function goldenSection(cost: (x: number) => number, low: number, high: number): number {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [low, high];
  let [c, d] = [b - ratio * (b - a), a + ratio * (b - a)];
  let [fc, fd] = [cost(c), cost(d)];
  for (let i = 0; i < 60; i++) {
    if (fc < fd) {
      [b, d, fd] = [d, c, fc];
      c = b - ratio * (b - a);
      fc = cost(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + ratio * (b - a);
      fd = cost(d);
    }
  }
  return (a + b) / 2;
}
