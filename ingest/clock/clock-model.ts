/** One observation of the clocks: at `time_s` (left clock) the right clock lay `lag_s` behind, give or take `u`. */
export interface LagObservation {
  time_s: number;
  lag_s: number;
  u: number;
  /** True for what steps tell, which a lasting difference between the feet shifts as a whole. */
  from_steps: boolean;
}

/** lag(t) = lag_s + rate * (t - at_s), left clock. */
export interface ClockModel {
  at_s: number;
  lag_s: number;
  rate: number;
  /** Covariance of (lag_s, rate). */
  lag_variance: number;
  rate_variance: number;
  covariance: number;
  residual_s: number;
}

/** Clocks of sensors differ by tens of parts in a million; 200 is known to happen. */
const DRIFT_U = 1.5e-4;
/** A runner's right step may fall about 0.6 % of a stride off the middle for good ('common practice'). */
const ASYMMETRY_U_S = 0.0035;

/**
 * Lag and drift from impacts and steps together, each by its own weight: Gaussian least squares with weak priors on drift and on
 * the runner's lasting asymmetry.
 */
export function fitClock(observations: LagObservation[]): ClockModel {
  const weights = observations.map(({ u }) => 1 / u ** 2);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const at_s = observations.reduce((sum, { time_s }, i) => sum + weights[i] * time_s, 0) / total;
  const base = observations[0].lag_s;
  // Unknowns: lag at at_s, drift, asymmetry.
  const normal = [
    [1e-12, 0, 0],
    [0, 1 / DRIFT_U ** 2, 0],
    [0, 0, 1 / ASYMMETRY_U_S ** 2],
  ];
  const right = [0, 0, 0];
  for (const [i, { time_s, lag_s, from_steps }] of observations.entries()) {
    const row = [1, time_s - at_s, from_steps ? 1 : 0];
    for (let a = 0; a < 3; a++) {
      right[a] += weights[i] * row[a] * (lag_s - base);
      for (let b = 0; b < 3; b++) normal[a][b] += weights[i] * row[a] * row[b];
    }
  }
  const cover = invert3(normal);
  const [lag, rate, asymmetry] = cover.map((row) => row[0] * right[0] + row[1] * right[1] + row[2] * right[2]);
  const squares = observations.reduce((sum, { time_s, lag_s, from_steps }) => {
    return sum + (lag_s - base - lag - rate * (time_s - at_s) - (from_steps ? asymmetry : 0)) ** 2;
  }, 0);
  return {
    at_s,
    lag_s: base + lag,
    rate,
    lag_variance: cover[0][0],
    rate_variance: cover[1][1],
    covariance: cover[0][1],
    residual_s: Math.sqrt(squares / observations.length),
  };
}

/** Standard uncertainty of the lag at an instant of the left clock. */
export function lagUncertainty(model: ClockModel, time_s: number): number {
  const dt = time_s - model.at_s;
  return Math.sqrt(model.lag_variance + 2 * dt * model.covariance + dt * dt * model.rate_variance);
}

function invert3(m: number[][]): number[][] {
  const [[a, b, c], [d, e, f], [g, h, i]] = m;
  const A = e * i - f * h;
  const B = f * g - d * i;
  const C = d * h - e * g;
  const determinant = a * A + b * B + c * C;
  return [
    [A, c * h - b * i, b * f - c * e],
    [B, a * i - c * g, c * d - a * f],
    [C, b * g - a * h, a * e - b * d],
  ].map((row) => row.map((value) => value / determinant));
}
