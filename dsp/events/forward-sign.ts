import type { AxisColumns } from '../../shared/sample-block.ts';
import { project, type Vector3 } from './sagittal-axis.ts';

/** Skewness tells less than the correlation does where both are whole; it tells more where acceleration is clipped. */
const SKEW_WEIGHT = 1.5;

/**
 * Which way the leg swings forward about an axis of unknown sign, from two signs that do not depend on the mounting:
 *
 * 1. Where the sensor is high and low. After toe-off the foot rises while it turns backward (heel up); before touchdown
 *    it sinks while it turns forward. So vertical velocity and forward rate are correlated negatively. The vertical
 *    velocity comes from a planar strapdown over short windows: turn the acceleration by the integrated rate, take its mean as 'up'
 *    (over strides the velocity comes back, so only gravity remains), integrate the rest. Clipped acceleration spoils it.
 * 2. How the rate is spread. The leg swings forward in one fast sweep and turns backward in two slower ones (push-off,
 *    fold): the rate's skewness is positive.
 * @param acc acceleration, sensor axes, m/s2, low-passed and thinned to `rate_hz`
 * @param rate rotation rate about `axis`, rad/s, the same samples
 * @param window_s a few strides, short enough for the drift of the angle to stay small
 * @param active_rate_radps windows with a smaller root mean square rate hold no running
 * @param clipped_share share of the samples with clipped acceleration, 0 to 1
 * @returns 1 when the axis already points so that forward swing is positive, -1 when it must be turned
 */
export function forwardSign(
  acc: AxisColumns,
  rate: Float64Array,
  axis: Vector3,
  rate_hz: number,
  window_s: number,
  active_rate_radps: number,
  clipped_share: number,
): 1 | -1 {
  const [u, v] = planeBasis(axis);
  const along_u = project(acc, u);
  const along_v = project(acc, v);
  const size = Math.max(2, Math.min(rate.length, Math.round(window_s * rate_hz)));
  let [correlations, windows, square, cube, samples] = [0, 0, 0, 0, 0];
  for (let from = 0; from + size <= rate.length; from += size >> 1) {
    const to = from + size;
    const r = rate.subarray(from, to);
    const power = r.reduce((total, value) => total + value * value, 0) / size;
    // NaN (a gap) fails the comparison as well.
    if (!(power > active_rate_radps * active_rate_radps)) continue;
    const correlation = riseAgainstRate(along_u.subarray(from, to), along_v.subarray(from, to), r, rate_hz);
    if (Number.isFinite(correlation)) {
      correlations += correlation;
      windows++;
    }
    square += power * size;
    cube += r.reduce((total, value) => total + value * value * value, 0);
    samples += size;
  }
  if (samples === 0) return 1;
  const skewness = cube / samples / (square / samples) ** 1.5;
  // A tenth of the samples clipped leaves no trust in the velocity.
  const trust = Math.max(0, 1 - 10 * clipped_share);
  const height = windows > 0 ? -correlations / windows : 0;
  return trust * height + SKEW_WEIGHT * skewness >= 0 ? 1 : -1;
}

/** Two unit vectors that make a right-handed set with the axis: u x v = axis. */
export function planeBasis([x, y, z]: Vector3): [Vector3, Vector3] {
  const helper: Vector3 = Math.abs(x) < 0.6 ? [1, 0, 0] : [0, 1, 0];
  const dot = helper[0] * x + helper[1] * y + helper[2] * z;
  const u = [helper[0] - dot * x, helper[1] - dot * y, helper[2] - dot * z];
  const length = Math.hypot(u[0], u[1], u[2]);
  const [ux, uy, uz] = u.map((value) => value / length);
  return [
    [ux, uy, uz],
    [y * uz - z * uy, z * ux - x * uz, x * uy - y * ux],
  ];
}

/** Correlation of vertical velocity and rate over one window. */
function riseAgainstRate(along_u: Float64Array, along_v: Float64Array, rate: Float64Array, rate_hz: number): number {
  const n = rate.length;
  const angle = detrended(integral(rate, rate_hz));
  const px = new Float64Array(n);
  const py = new Float64Array(n);
  let mx = 0;
  let my = 0;
  for (let i = 0; i < n; i++) {
    const [c, s] = [Math.cos(angle[i]), Math.sin(angle[i])];
    px[i] = c * along_u[i] - s * along_v[i];
    py[i] = s * along_u[i] + c * along_v[i];
    mx += px[i] / n;
    my += py[i] / n;
  }
  const g = Math.hypot(mx, my);
  const up = new Float64Array(n);
  for (let i = 0; i < n; i++) up[i] = (px[i] * mx + py[i] * my) / g;
  const rise = detrended(integral(up, rate_hz));
  let [both, rises, rates] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    both += rise[i] * rate[i];
    rises += rise[i] * rise[i];
    rates += rate[i] * rate[i];
  }
  return both / Math.sqrt(rises * rates);
}

function integral(x: Float64Array, rate_hz: number): Float64Array {
  const out = new Float64Array(x.length);
  for (let i = 1; i < x.length; i++) out[i] = out[i - 1] + (x[i] + x[i - 1]) / (2 * rate_hz);
  return out;
}

/** The column less its least-squares line. */
function detrended(x: Float64Array): Float64Array {
  const n = x.length;
  const middle = (n - 1) / 2;
  let mean = 0;
  let sxy = 0;
  let sxx = 0;
  for (let i = 0; i < n; i++) {
    mean += x[i] / n;
    sxy += (i - middle) * x[i];
    sxx += (i - middle) * (i - middle);
  }
  const slope = sxx > 0 ? sxy / sxx : 0;
  return x.map((value, i) => value - mean - slope * (i - middle));
}
