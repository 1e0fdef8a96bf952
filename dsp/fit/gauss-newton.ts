import { leastSquares } from '../numeric/least-squares.ts';

/** Residuals (observed minus model) and their derivatives of the MODEL by each parameter. */
export interface Linearised {
  residuals: number[];
  /** One column a parameter, as long as `residuals`. */
  columns: number[][];
}

export interface NonlinearFit {
  parameters: number[];
  /** (J'J)^-1 at the solution. */
  unscaled_covariance: number[][];
  residual_sum_of_squares: number;
  degrees_of_freedom: number;
  converged: boolean;
}

/** Residuals that fall by less than this part have come to their rounding. */
const NO_GAIN = 1e-14;
/** Each step still gains digits of the parameters, whose errors go with the root of the residuals'. */
const LAST_STEPS = 3;

/**
 * Gauss-Newton with step halving, from a start that is already near the minimum (the polish after a search). Each step
 * solves the linearised problem by QR. Converged means that a full step changes no parameter beyond rounding, or that
 * the residuals have not fallen for some steps; 'converged' alone is never proof (see the NIST checks).
 * @param start one value a parameter
 * @param linearise model at given parameters; may return null outside its domain
 * @returns null where the model is undefined at the start
 */
export function gaussNewton(
  start: readonly number[],
  linearise: (parameters: readonly number[]) => Linearised | null,
  iterations = 100,
): NonlinearFit | null {
  let parameters = [...start];
  let here = linearise(parameters);
  if (!here) return null;
  let rss = squares(here.residuals);
  let converged = false;
  let stalled = 0;
  for (let i = 0; i < iterations && !converged; i++) {
    const step = leastSquares(here.columns, here.residuals);
    if (!step) return null;
    let factor = 1;
    for (; factor > 1e-8; factor /= 2) {
      const trial = parameters.map((p, k) => p + factor * step.coefficients[k]);
      const there = linearise(trial);
      const trialRss = there ? squares(there.residuals) : Number.POSITIVE_INFINITY;
      if (there && trialRss <= rss) {
        stalled = rss - trialRss <= NO_GAIN * rss ? stalled + 1 : 0;
        [parameters, here, rss] = [trial, there, trialRss];
        break;
      }
    }
    const small = step.coefficients.every((s, k) => Math.abs(s) <= 1e-11 * (Math.abs(parameters[k]) + 1e-11));
    // A step so short that rounding hides its gain: the minimum, as far as these digits can tell.
    converged = small || factor <= 1e-8 || stalled >= LAST_STEPS;
  }
  const last = leastSquares(here.columns, here.residuals);
  if (!last) return null;
  return {
    parameters,
    unscaled_covariance: last.unscaled_covariance,
    residual_sum_of_squares: rss,
    degrees_of_freedom: here.residuals.length - parameters.length,
    converged,
  };
}

function squares(values: readonly number[]): number {
  let sum = 0;
  for (const v of values) sum += v * v;
  return sum;
}
