/**
 * Time derivative of a uniformly sampled signal: central differences (error of order h^2), one-sided at the ends and
 * beside gaps (parabola through three points, or two where there are no more).
 * @param x samples; NaN marks a gap and stays NaN
 * @param rate_hz samples a second
 * @returns units of x per second, same length
 */
export function derivative(x: Float64Array, rate_hz: number): Float64Array {
  const n = x.length;
  const y = new Float64Array(n).fill(Number.NaN);
  const at = (i: number): number => (i >= 0 && i < n ? x[i] : Number.NaN);
  for (let i = 0; i < n; i++) {
    if (Number.isNaN(x[i])) continue;
    const central = (at(i + 1) - at(i - 1)) / 2;
    if (!Number.isNaN(central)) {
      y[i] = central * rate_hz;
      continue;
    }
    const forward = Number.isNaN(at(i + 1)) ? Number.NaN : oneSided(x[i], at(i + 1), at(i + 2));
    const backward = Number.isNaN(at(i - 1)) ? Number.NaN : -oneSided(x[i], at(i - 1), at(i - 2));
    y[i] = (Number.isNaN(forward) ? backward : forward) * rate_hz;
  }
  return y;
}

function oneSided(x0: number, x1: number, x2: number): number {
  return Number.isNaN(x2) ? x1 - x0 : (-3 * x0 + 4 * x1 - x2) / 2;
}
