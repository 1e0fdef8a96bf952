/**
 * Index of the smallest finite value in [from, to); -1 when there is none.
 * @param x n values; those not finite are passed over
 * @param from first index, may have a fraction; below 0 counts as 0
 * @param to index after the last, may have a fraction
 * @returns index of the first of equal ones; -1 when there is none
 */
export function argMin(x: Float64Array, from: number, to: number): number {
  let best = -1;
  for (let i = Math.max(0, Math.ceil(from)); i < Math.min(x.length, to); i++) {
    if (Number.isFinite(x[i]) && (best < 0 || x[i] < x[best])) best = i;
  }
  return best;
}

/**
 * Index of the largest finite value in [from, to); -1 when there is none.
 * @param x n values; those not finite are passed over
 * @param from first index, may have a fraction; below 0 counts as 0
 * @param to index after the last, may have a fraction
 * @returns index of the first of equal ones; -1 when there is none
 */
export function argMax(x: Float64Array, from: number, to: number): number {
  let best = -1;
  for (let i = Math.max(0, Math.ceil(from)); i < Math.min(x.length, to); i++) {
    if (Number.isFinite(x[i]) && (best < 0 || x[i] > x[best])) best = i;
  }
  return best;
}

/**
 * Local maxima of at least `height`, the higher one of any two closer than `distance` samples; ascending indices.
 * @param x n values
 * @param height in the unit of x, itself allowed
 * @param distance samples; peaks exactly this far apart are both kept
 * @returns indices, ascending; the ends of x are no peaks, a flat top counts where it begins
 */
export function findPeaks(x: Float64Array, height: number, distance: number): number[] {
  const found: number[] = [];
  for (let i = 1; i < x.length - 1; i++) {
    if (x[i] >= height && x[i] > x[i - 1] && x[i] >= x[i + 1]) found.push(i);
  }
  found.sort((p, q) => x[q] - x[p]);
  const kept: number[] = [];
  for (const p of found) if (kept.every((q) => Math.abs(p - q) >= distance)) kept.push(p);
  return kept.sort((p, q) => p - q);
}

/**
 * Sub-sample position of an extremum: vertex of the parabola through the sample and its neighbours.
 * @param x n values
 * @param i index of the extremum
 * @returns fractional index within one sample of i; i itself at the ends of x, beside values that are not finite, and on a straight line
 */
export function vertex(x: Float64Array, i: number): number {
  if (i <= 0 || i >= x.length - 1) return i;
  const curvature = x[i - 1] - 2 * x[i] + x[i + 1];
  if (!Number.isFinite(curvature) || curvature === 0) return i;
  const shift = (x[i - 1] - x[i + 1]) / (2 * curvature);
  return i + Math.max(-1, Math.min(1, shift));
}

/**
 * Sub-sample index of the first crossing of `level` at or after `from`, before `to`; null when there is none.
 * @param x n values
 * @param from index, may have a fraction
 * @param to index, may have a fraction
 * @param level in the unit of x; a sample exactly on it has crossed
 * @param direction which way x must pass the level
 * @returns fractional index by a straight line between two samples; null when there is none
 */
export function firstCrossing(
  x: Float64Array,
  from: number,
  to: number,
  level: number,
  direction: 'rising' | 'falling',
): number | null {
  const sign = direction === 'rising' ? 1 : -1;
  for (let i = Math.max(1, Math.ceil(from)); i < Math.min(x.length, to); i++) {
    const before = sign * (x[i - 1] - level);
    const after = sign * (x[i] - level);
    if (before < 0 && after >= 0) return i - after / (after - before);
  }
  return null;
}

/**
 * Indices of local maxima in [from, to).
 * @param x n values
 * @param from index, may have a fraction
 * @param to index, may have a fraction
 * @returns ascending; never the first or last index of x; a flat stretch counts where it begins
 */
export function localMaxima(x: Float64Array, from: number, to: number): number[] {
  const out: number[] = [];
  for (let i = Math.max(1, Math.ceil(from)); i < Math.min(x.length - 1, to); i++) {
    if (x[i] > x[i - 1] && x[i] >= x[i + 1]) out.push(i);
  }
  return out;
}

/**
 * Indices of local minima in [from, to).
 * @param x n values
 * @param from index, may have a fraction
 * @param to index, may have a fraction
 * @returns ascending; never the first or last index of x; a flat stretch counts where it begins
 */
export function localMinima(x: Float64Array, from: number, to: number): number[] {
  const out: number[] = [];
  for (let i = Math.max(1, Math.ceil(from)); i < Math.min(x.length - 1, to); i++) {
    if (x[i] < x[i - 1] && x[i] <= x[i + 1]) out.push(i);
  }
  return out;
}

/**
 * The index with the greatest score; -1 of none.
 * @param indices in any order
 * @param score greater is better; asked for each index
 * @returns the first of equally good ones; -1 of none
 */
export function best(indices: number[], score: (i: number) => number): number {
  let chosen = -1;
  for (const i of indices) if (chosen < 0 || score(i) > score(chosen)) chosen = i;
  return chosen;
}
