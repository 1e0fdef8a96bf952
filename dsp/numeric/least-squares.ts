/** Result of a linear least-squares fit. */
export interface LinearFit {
  /** One a column, in order. */
  coefficients: number[];
  /** Standard error of each coefficient; from the residuals unless the rows' own uncertainties were given. */
  standard_errors: number[];
  /** (A'A)^-1 of the (weighted) columns, row by row. Multiply by the residual variance for a covariance. */
  unscaled_covariance: number[][];
  residual_sum_of_squares: number;
  degrees_of_freedom: number;
  /** sqrt(residual_sum_of_squares / degrees_of_freedom); NaN without degrees of freedom. */
  residual_sd: number;
}

/**
 * Linear least squares by Householder QR with scaled columns, in place of the normal equations, which square the
 * condition number. Source: Golub and Van Loan, Matrix Computations, 4th ed., section 5.3.
 * @param columns p columns of n values, p <= n
 * @param y n values
 * @returns null when the columns are linearly dependent
 */
export function leastSquares(columns: readonly ArrayLike<number>[], y: ArrayLike<number>): LinearFit | null {
  const n = y.length;
  const p = columns.length;
  if (n < p) return null;
  const scale = columns.map((column) => Math.sqrt(dot(column, column, 0)) || 1);
  const a = columns.map((column, j) => Float64Array.from(column, (v) => v / scale[j]));
  const rhs = Float64Array.from(y);
  for (let j = 0; j < p; j++) {
    const length = Math.sqrt(dot(a[j], a[j], j));
    if (!(length > 1e-13)) return null;
    const alpha = a[j][j] > 0 ? -length : length;
    const v = a[j].slice();
    v.fill(0, 0, j);
    v[j] -= alpha;
    const vv = dot(v, v, j);
    if (vv === 0) continue;
    for (let k = j; k < p; k++) reflect(a[k], v, vv, j);
    reflect(rhs, v, vv, j);
  }
  const inverse = invertUpper(a, p);
  const coefficients = inverse.map((row, i) => row.reduce((sum, r, j) => sum + r * rhs[j], 0) / scale[i]);
  const covariance = inverse.map((ri, i) =>
    inverse.map((rj, j) => ri.reduce((sum, r, k) => sum + r * rj[k], 0) / (scale[i] * scale[j])),
  );
  // Residuals from the data, not from the transformed side: they keep their digits that way.
  let rss = 0;
  for (let i = 0; i < n; i++) {
    let fitted = 0;
    for (let j = 0; j < p; j++) fitted += coefficients[j] * columns[j][i];
    rss += (y[i] - fitted) ** 2;
  }
  const df = n - p;
  const residual_sd = df > 0 ? Math.sqrt(rss / df) : Number.NaN;
  return {
    coefficients,
    standard_errors: covariance.map((row, i) => residual_sd * Math.sqrt(row[i])),
    unscaled_covariance: covariance,
    residual_sum_of_squares: rss,
    degrees_of_freedom: df,
    residual_sd,
  };
}

/** Straight line y = intercept + slope x. */
export interface Line {
  intercept: number;
  slope: number;
  intercept_se: number;
  slope_se: number;
  residual_sd: number;
  degrees_of_freedom: number;
}

/**
 * Ordinary least-squares line; null with fewer than two different x.
 * @param x n finite values
 * @param y n finite values, one for each x
 * @returns intercept and slope in the units of y and of y per x; null with fewer than two different x
 */
export function fitLine(x: ArrayLike<number>, y: ArrayLike<number>): Line | null {
  const fit = leastSquares([new Float64Array(x.length).fill(1), x], y);
  if (!fit) return null;
  return {
    intercept: fit.coefficients[0],
    slope: fit.coefficients[1],
    intercept_se: fit.standard_errors[0],
    slope_se: fit.standard_errors[1],
    residual_sd: fit.residual_sd,
    degrees_of_freedom: fit.degrees_of_freedom,
  };
}

function dot(a: ArrayLike<number>, b: ArrayLike<number>, from: number): number {
  let sum = 0;
  for (let i = from; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

function reflect(x: Float64Array, v: Float64Array, vv: number, from: number): void {
  const factor = (2 * dot(x, v, from)) / vv;
  for (let i = from; i < x.length; i++) x[i] -= factor * v[i];
}

/** Inverse of the upper triangle R, where R[i][j] is columns[j][i]. */
function invertUpper(columns: Float64Array[], p: number): number[][] {
  const inverse = Array.from({ length: p }, () => new Array<number>(p).fill(0));
  for (let j = 0; j < p; j++) {
    inverse[j][j] = 1 / columns[j][j];
    for (let i = j - 1; i >= 0; i--) {
      let sum = 0;
      for (let k = i + 1; k <= j; k++) sum += columns[k][i] * inverse[k][j];
      inverse[i][j] = -sum / columns[i][i];
    }
  }
  return inverse;
}
