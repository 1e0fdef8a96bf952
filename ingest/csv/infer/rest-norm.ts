/** What the acceleration's norm says about its unit. */
export interface NormFacts {
  /** Median norm of the stretches at rest, null when there is none in the rows looked at. */
  resting: number | null;
  /** Median norm of all rows. */
  median: number;
  /** 99.9th percentile of the norm. */
  peak: number;
  /** True where every value is a whole number. */
  whole: boolean;
  /** Share of the rows whose norm lies within 10 % of a value. */
  shareNear: (norm: number) => number;
}

const WINDOW = 50;

/**
 * Norm of three columns at rest and in all. Rest: 50 rows in a row in which the three spreads stay below 3 % of the norm and
 * the norm is among the commonest.
 * @param x, y, z n values each, any unit
 */
export function normFacts(x: Float64Array, y: Float64Array, z: Float64Array): NormFacts {
  const n = x.length;
  const norms = new Float64Array(n);
  let kept = 0;
  let whole = true;
  for (let i = 0; i < n; i++) {
    const norm = Math.sqrt(x[i] * x[i] + y[i] * y[i] + z[i] * z[i]);
    if (Number.isNaN(norm)) continue;
    norms[kept++] = norm;
    if (whole && (x[i] % 1 !== 0 || y[i] % 1 !== 0 || z[i] % 1 !== 0)) whole = false;
  }
  const sorted = norms.slice(0, kept).sort();
  const at = (share: number) => (kept === 0 ? Number.NaN : sorted[Math.min(kept - 1, Math.floor(share * kept))]);
  const shareNear = (norm: number) => {
    let near = 0;
    for (const value of sorted) if (Math.abs(value - norm) < 0.1 * norm) near++;
    return kept > 0 ? near / kept : 0;
  };
  return { resting: restingNorm(x, y, z), median: at(0.5), peak: at(0.999), whole: kept > 0 && whole, shareNear };
}

function restingNorm(x: Float64Array, y: Float64Array, z: Float64Array): number | null {
  const quiet: number[] = [];
  for (let start = 0; start + WINDOW <= x.length; start += WINDOW / 2) {
    const stats = [x, y, z].map((axis) => meanAndSpread(axis, start));
    const norm = Math.hypot(stats[0].mean, stats[1].mean, stats[2].mean);
    if (norm > 0 && Math.hypot(stats[0].spread, stats[1].spread, stats[2].spread) < 0.03 * norm) quiet.push(norm);
  }
  if (quiet.length < 2) return null;
  quiet.sort((a, b) => a - b);
  return quiet[quiet.length >> 1];
}

function meanAndSpread(axis: Float64Array, start: number): { mean: number; spread: number } {
  let sum = 0;
  let squares = 0;
  for (let i = start; i < start + WINDOW; i++) {
    sum += axis[i];
    squares += axis[i] * axis[i];
  }
  const mean = sum / WINDOW;
  return { mean, spread: Math.sqrt(Math.max(0, squares / WINDOW - mean * mean)) };
}

/** 99.9th percentile of the greatest absolute value of three columns. */
export function peakAbsolute(columns: Float64Array[]): number {
  const [x, y, z] = columns;
  const values = new Float64Array(x.length);
  let kept = 0;
  for (let i = 0; i < x.length; i++) {
    const value = Math.max(Math.abs(x[i]), Math.abs(y[i]), Math.abs(z[i]));
    if (!Number.isNaN(value)) values[kept++] = value;
  }
  const sorted = values.subarray(0, kept).sort();
  return sorted.length === 0 ? Number.NaN : sorted[Math.min(sorted.length - 1, Math.floor(0.999 * sorted.length))];
}
