import type { AxisColumns } from '../../shared/sample-block.ts';
import { project } from './sagittal-axis.ts';
import type { Vector3 } from '../numeric/rotation.ts';

/**
 * Which way the leg swings forward about an axis of unknown sign. A foot or shank goes forward faster than the body while it is high, in
 * swing, and slower while it is low, on the ground: whatever the mounting, the runner and the ground, height and forward
 * velocity go together. Both come from a planar strapdown over short windows: turn the acceleration by the integrated rate, take its mean
 * as 'up' (over strides the velocity comes back, so only gravity remains), 'forward' a quarter turn against the axis from it, and
 * integrate the rest. With the axis reversed 'forward' is reversed, and the correlation with it.
 * @param acc acceleration, sensor axes, m/s2, low-passed and thinned to `rate_hz`
 * @param rate rotation rate about `axis`, rad/s, the same samples
 * @param axis unit vector of rotation, sensor axes
 * @param rate_hz samples a second of `acc` and `rate`
 * @param window_s a few strides, short enough for the drift of the integrals to stay small
 * @param active_rate_radps windows with a smaller root mean square rate hold no running
 * @returns 1 when the axis already points so that forward swing is positive, -1 when it must be turned
 */
export function forwardSign(
  acc: AxisColumns,
  rate: Float64Array,
  axis: Vector3,
  rate_hz: number,
  window_s: number,
  active_rate_radps: number,
): 1 | -1 {
  const [one, other] = planeBasis(axis);
  const along_one = project(acc, one);
  const along_other = project(acc, other);
  const size = Math.max(2, Math.min(rate.length, Math.round(window_s * rate_hz)));
  let together = 0;
  for (let from = 0; from + size <= rate.length; from += size >> 1) {
    const to = from + size;
    const r = rate.subarray(from, to);
    const power = r.reduce((total, value) => total + value * value, 0) / size;
    // NaN (a gap) fails the comparison as well.
    if (!(power > active_rate_radps * active_rate_radps)) continue;
    const correlation = forwardWhileHigh(along_one.subarray(from, to), along_other.subarray(from, to), r, rate_hz);
    if (Number.isFinite(correlation)) together += correlation;
  }
  return together >= 0 ? 1 : -1;
}

/**
 * Two unit vectors that make a right-handed set with the axis: the first times the second is the axis.
 * @param axis unit vector
 * @returns both of length 1 and at right angles to the axis
 */
export function planeBasis([x, y, z]: Vector3): [Vector3, Vector3] {
  const helper: Vector3 = Math.abs(x) < 0.6 ? [1, 0, 0] : [0, 1, 0];
  const dot = helper[0] * x + helper[1] * y + helper[2] * z;
  const first = [helper[0] - dot * x, helper[1] - dot * y, helper[2] - dot * z];
  const length = Math.hypot(first[0], first[1], first[2]);
  const [ux, uy, uz] = first.map((value) => value / length);
  return [
    [ux, uy, uz],
    [y * uz - z * uy, z * ux - x * uz, x * uy - y * ux],
  ];
}

/** Correlation of height and forward velocity over one window. */
function forwardWhileHigh(
  along_one: Float64Array,
  along_other: Float64Array,
  rate: Float64Array,
  rate_hz: number,
): number {
  const n = rate.length;
  const angle = detrended(integral(rate, rate_hz));
  const px = new Float64Array(n);
  const py = new Float64Array(n);
  let mx = 0;
  let my = 0;
  for (let i = 0; i < n; i++) {
    const c = Math.cos(angle[i]);
    const s = Math.sin(angle[i]);
    px[i] = c * along_one[i] - s * along_other[i];
    py[i] = s * along_one[i] + c * along_other[i];
    mx += px[i] / n;
    my += py[i] / n;
  }
  for (let i = 0; i < n; i++) {
    const [x, y] = [px[i], py[i]];
    px[i] = x * mx + y * my;
    py[i] = x * my - y * mx;
  }
  const [up, forward] = [px, py];
  const height = detrended(integral(detrended(integral(up, rate_hz)), rate_hz));
  const velocity = detrended(integral(forward, rate_hz));
  let [both, heights, velocities] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    both += height[i] * velocity[i];
    heights += height[i] * height[i];
    velocities += velocity[i] * velocity[i];
  }
  return both / Math.sqrt(heights * velocities);
}

function integral(x: Float64Array, rate_hz: number): Float64Array {
  const out = new Float64Array(x.length);
  for (let i = 1; i < x.length; i++) out[i] = out[i - 1] + (x[i] + x[i - 1]) / (2 * rate_hz);
  return out;
}

/** Takes its least-squares line out of a column, in place. */
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
  for (let i = 0; i < n; i++) x[i] -= mean + slope * (i - middle);
  return x;
}
