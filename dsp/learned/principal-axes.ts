/** Rounds of the subspace iteration. The last axes need not be exact: any directions of much spread do. */
const ROUNDS = 12;

/**
 * The directions of greatest spread of some rows (already centred), by subspace iteration with Gram-Schmidt.
 * @param rows of equal length
 * @param count axes wanted
 * @param chance uniform in [0, 1): where the iteration starts
 * @returns axes row by row, each of length 1 with its largest number positive; the rows' standard deviation along each
 */
export function principalAxes(
  rows: readonly Float64Array[],
  count: number,
  chance: () => number,
): { axes: Float64Array; spreads: Float64Array } {
  const n = rows[0].length;
  let axes = Array.from({ length: count }, () => Float64Array.from({ length: n }, () => chance() - 0.5));
  orthonormalise(axes);
  let spreads = new Float64Array(count);
  for (let round = 0; round < ROUNDS; round++) {
    const next = axes.map(() => new Float64Array(n));
    for (const row of rows) {
      for (let d = 0; d < count; d++) {
        const along = dot(axes[d], row);
        const to = next[d];
        for (let i = 0; i < n; i++) to[i] += along * row[i];
      }
    }
    spreads = Float64Array.from(next, (axis) => Math.sqrt(Math.sqrt(dot(axis, axis)) / rows.length));
    // Greatest first, so that Gram-Schmidt keeps it.
    const order = [...spreads.keys()].sort((a, b) => spreads[b] - spreads[a]);
    axes = order.map((d) => next[d]);
    spreads = Float64Array.from(order, (d) => spreads[d]);
    orthonormalise(axes);
  }
  for (const axis of axes) {
    const largest = axis.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0);
    if (largest < 0) for (let i = 0; i < n; i++) axis[i] = -axis[i];
  }
  const flat = new Float64Array(count * n);
  for (const [d, axis] of axes.entries()) flat.set(axis, d * n);
  spreads = Float64Array.from(axes, (axis) =>
    Math.sqrt(rows.reduce((sum, row) => sum + dot(axis, row) ** 2, 0) / rows.length),
  );
  return { axes: flat, spreads };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

function orthonormalise(axes: Float64Array[]): void {
  axes.forEach((axis, d) => {
    for (let e = 0; e < d; e++) {
      const along = dot(axis, axes[e]);
      for (let i = 0; i < axis.length; i++) axis[i] -= along * axes[e][i];
    }
    const length = Math.sqrt(dot(axis, axis)) || 1;
    for (let i = 0; i < axis.length; i++) axis[i] /= length;
  });
}
