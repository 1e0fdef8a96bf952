/**
 * Time derivative of a uniformly sampled signal: central differences (error of order h^2), one-sided at the ends and
 * beside gaps (parabola through three points, or two where there are no more).
 * @param x samples; NaN marks a gap and stays NaN
 * @param rate_hz samples a second
 * @returns units of x per second, same length
 */
export function derivative(x: Float64Array, rate_hz: number): Float64Array {
  const n = x.length;
  const y = new Float64Array(n);
  const half = rate_hz / 2;
  for (let i = 1; i < n - 1; i++) y[i] = (x[i + 1] - x[i - 1]) * half;
  // The ends, and what lies in a gap or beside one.
  for (let i = 0; i < n; i++) {
    if (i > 0 && i < n - 1 && !Number.isNaN(y[i]) && !Number.isNaN(x[i])) continue;
    y[i] = atTheEdge(x, i) * rate_hz;
  }
  return y;
}

/** Change a sample where a neighbour is missing; NaN where both are, or the sample itself. */
function atTheEdge(x: Float64Array, i: number): number {
  const at = (k: number): number => (k >= 0 && k < x.length ? x[k] : Number.NaN);
  const forward = Number.isNaN(at(i + 1)) ? Number.NaN : oneSided(x[i], at(i + 1), at(i + 2));
  const backward = Number.isNaN(at(i - 1)) ? Number.NaN : -oneSided(x[i], at(i - 1), at(i - 2));
  return Number.isNaN(forward) ? backward : forward;
}

function oneSided(x0: number, x1: number, x2: number): number {
  return Number.isNaN(x2) ? x1 - x0 : (-3 * x0 + 4 * x1 - x2) / 2;
}
