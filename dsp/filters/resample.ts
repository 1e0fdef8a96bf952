import type { Gap } from '../../shared/sample-block.ts';
import { cubicHermite } from '../numeric/cubic-hermite.ts';
import { brokenIntervals, typicalInterval } from './broken-intervals.ts';

/** Columns on a uniform grid. */
export interface UniformGrid {
  /** Time of sample 0, seconds on the recording's clock. Sample i is at start_s + i / rate_hz. */
  start_s: number;
  rate_hz: number;
  length: number;
  /** In the order given; NaN where nothing was measured. */
  columns: Float64Array[];
  /** 1 where the grid point lies between two samples that belong together, 0 in a gap. */
  measured: Uint8Array;
}

/** An interval longer than this many sample intervals is a gap even when nobody listed it. */
const GAP_INTERVALS = 2.5;
/** Stamps within this fraction of an interval of the grid are on it: values are copied, not interpolated. */
const ON_GRID = 1e-4;

/**
 * Puts samples with jittering time stamps on a uniform grid, for filters that need a constant rate. Between samples:
 * cubic Hermite interpolation with slopes from the neighbours (third order, exact for straight lines and parabolas on
 * even spacing), linear beside a gap. Nothing is interpolated across a gap: those grid points are NaN, `measured` 0.
 *
 * @param time_s strictly increasing stamps, seconds
 * @param columns channels of the same length; a NaN sample makes the grid points that need it NaN
 * @param rate_hz grid rate; the recording's true rate keeps one grid point a sample
 * @param gaps listed gaps; intervals above 2.5 sample intervals count as gaps too
 */
export function toUniformGrid(
  time_s: Float64Array,
  columns: readonly Float64Array[],
  rate_hz: number,
  gaps: readonly Gap[] = [],
): UniformGrid {
  const n = time_s.length;
  const start_s = n > 0 ? time_s[0] : 0;
  const length = n > 0 ? Math.floor((time_s[n - 1] - start_s) * rate_hz + ON_GRID) + 1 : 0;
  const grid: UniformGrid = {
    start_s,
    rate_hz,
    length,
    columns: columns.map(() => new Float64Array(length).fill(Number.NaN)),
    measured: new Uint8Array(length),
  };
  const broken = brokenIntervals(time_s, gaps, GAP_INTERVALS * typicalInterval(time_s, 1 / rate_hz));
  const weights: Weights = [0, 0, 0, 0];
  let k = 0;
  for (let i = 0; i < length; i++) {
    const t = start_s + i / rate_hz;
    while (k < n - 2 && time_s[k + 1] <= t) k++;
    const offset = (t - time_s[k]) * rate_hz;
    const toNext = n > k + 1 ? (time_s[k + 1] - t) * rate_hz : Number.POSITIVE_INFINITY;
    if (Math.abs(offset) < ON_GRID || Math.abs(toNext) < ON_GRID) {
      const nearest = Math.abs(offset) <= Math.abs(toNext) ? k : k + 1;
      for (let c = 0; c < columns.length; c++) grid.columns[c][i] = columns[c][nearest];
      grid.measured[i] = 1;
    } else if (!broken[k]) {
      const whole = k > 0 && !broken[k - 1] && k + 2 < n && !broken[k + 1];
      if (whole) weigh(time_s, k, t, weights);
      const [w0, w1, w2, w3] = weights;
      for (let c = 0; c < columns.length; c++) {
        const x = columns[c];
        const value = whole ? w0 * x[k - 1] + w1 * x[k] + w2 * x[k + 1] + w3 * x[k + 2] : Number.NaN;
        grid.columns[c][i] = Number.isNaN(value) ? interpolate(time_s, x, k, t, broken) : value;
      }
      grid.measured[i] = 1;
    }
  }
  return grid;
}

/** Parts of samples k - 1, k, k + 1 and k + 2 in a value between the middle two. */
type Weights = [number, number, number, number];

/** Weights of `interpolate` where nothing is missing: they depend on the stamps alone, so all columns share them. */
function weigh(time_s: Float64Array, k: number, t: number, weights: Weights): void {
  const h0 = time_s[k] - time_s[k - 1];
  const h = time_s[k + 1] - time_s[k];
  const h2 = time_s[k + 2] - time_s[k + 1];
  const part = (t - time_s[k]) / h;
  const rest = 1 - part;
  // Of the two slopes, times the interval: cubic Hermite's shares.
  const first = part * rest * rest * h;
  const last = -part * part * rest * h;
  const before = (first * h) / (h0 * (h0 + h));
  const after = (last * h) / (h2 * (h + h2));
  const byFirst = (first * h0) / (h * (h0 + h));
  const byLast = (last * h2) / (h * (h + h2));
  const to = part * part * (3 - 2 * part);
  weights[0] = -before;
  weights[1] = 1 - to + before - byFirst - byLast;
  weights[2] = to + byFirst + byLast - after;
  weights[3] = after;
}

function interpolate(time_s: Float64Array, x: Float64Array, k: number, t: number, broken: Uint8Array): number {
  const h = time_s[k + 1] - time_s[k];
  const part = (t - time_s[k]) / h;
  const secant = (x[k + 1] - x[k]) / h;
  const before = k > 0 && !broken[k - 1] ? slope(time_s, x, k) : Number.NaN;
  const after = k + 2 < x.length && !broken[k + 1] ? slope(time_s, x, k + 1) : Number.NaN;
  // A missing neighbour leaves the straight line on its side.
  const m0 = Number.isNaN(before) ? secant : before;
  const m1 = Number.isNaN(after) ? secant : after;
  return cubicHermite(part, h, x[k], x[k + 1], m0, m1);
}

/** Slope at sample k of the parabola through its neighbours. */
function slope(time_s: Float64Array, x: Float64Array, k: number): number {
  const h0 = time_s[k] - time_s[k - 1];
  const h1 = time_s[k + 1] - time_s[k];
  return ((x[k] - x[k - 1]) * h1 * h1 + (x[k + 1] - x[k]) * h0 * h0) / (h0 * h1 * (h0 + h1));
}
