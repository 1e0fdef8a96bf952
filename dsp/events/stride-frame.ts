import { planeBasis } from '../signals/forward-sign.ts';
import { project } from '../signals/sagittal-axis.ts';
import { lowPassTogether, type SensorSignals } from '../signals/sensor-signals.ts';
import type { SwingCycle } from './swing-cycles.ts';

/**
 * One stride seen in the plane of leg swing and in world directions: found from the rotation itself, so the mounting
 * angle drops out. Columns run over the cycle with a margin; index 0 is sample `first` of the recording.
 */
export interface StrideFrame {
  first: number;
  rate_hz: number;
  /** Stride time, s. */
  stride_s: number;
  /** The cycle within the columns. */
  from: number;
  to: number;
  /** Low-passed forward rate, rad/s. */
  rate: Float64Array;
  /** Low-passed vertical acceleration (gravity included), up positive, m/s2. */
  up: Float64Array;
  /** Low-passed horizontal acceleration, direction of travel positive, m/s2. */
  forward: Float64Array;
  /** Low-passed acceleration lengthwise to the segment (along its mean over the stride) and across it, m/s2. */
  along: Float64Array;
  across: Float64Array;
  /** Low-passed norm of acceleration, m/s2. */
  norm: Float64Array;
  /** Angle of the segment, forward positive, zero at the start of the stride and free of drift over it, rad. */
  angle: Float64Array;
  /** Mean of the world acceleration over the stride: gravity, and what the athlete gains in speed. */
  mean_up: number;
}

/**
 * Turns one cycle's acceleration into world directions. The angle is the integral of the forward rate, with what is left
 * over one stride taken out as drift (the segment comes back to where it was). 'Up' is the mean of the turned
 * acceleration over the stride, in which the velocity comes back as well: gravity remains. While an athlete speeds up,
 * 'up' leans forward by atan(a / g) for all of the stride alike.
 * @param cutoff_hz low-pass of the columns
 * @param margin_s taken along on either side of the cycle
 * @returns null where the cycle holds a gap
 */
export function strideFrame(
  signals: SensorSignals,
  cycle: SwingCycle,
  cutoff_hz: number,
  margin_s: number,
): StrideFrame | null {
  const { rate_hz, sagittal_rate, axis, acc_mps2, acc_norm, length } = signals;
  if (!sagittal_rate || !axis) return null;
  const margin = Math.round(margin_s * rate_hz);
  const first = Math.max(0, Math.min(cycle.from, cycle.stride_from) - margin);
  const end = Math.min(length, Math.max(cycle.to, cycle.stride_to) + margin + 1);
  const rate = sagittal_rate.subarray(first, end);
  const n = rate.length;
  const [s0, s1] = [cycle.stride_from - first, cycle.stride_to - first];
  const angle = new Float64Array(n);
  for (let i = 1; i < n; i++) angle[i] = angle[i - 1] + (rate[i] + rate[i - 1]) / (2 * rate_hz);
  const drift = (angle[s1] - angle[s0]) / (s1 - s0);
  const start = angle[s0];
  for (let i = 0; i < n; i++) angle[i] -= start + drift * (i - s0);

  const slice = {
    x: acc_mps2.x.subarray(first, end),
    y: acc_mps2.y.subarray(first, end),
    z: acc_mps2.z.subarray(first, end),
  };
  const [one, other] = planeBasis(axis);
  const a = project(slice, one);
  const b = project(slice, other);
  const { along, across } = segmentDirections(a, b, s0, s1);
  let [mx, my] = [0, 0];
  for (let i = 0; i < n; i++) {
    const c = Math.cos(angle[i]);
    const s = Math.sin(angle[i]);
    const x = c * a[i] - s * b[i];
    const y = s * a[i] + c * b[i];
    a[i] = x;
    b[i] = y;
    if (i >= s0 && i < s1) {
      mx += x;
      my += y;
    }
  }
  const mean = Math.hypot(mx, my);
  if (!(mean > 0)) return null;
  const [ex, ey] = [mx / mean, my / mean];
  // Forward swing is a rotation from 'forward' towards 'up': forward is 'up' turned by minus a right angle.
  const [up, forward] = turned(a, b, ex, ey);
  const columns = lowPassTogether(
    [rate, up, forward, along, across, acc_norm.subarray(first, end)],
    cutoff_hz,
    rate_hz,
  );
  return {
    first,
    rate_hz,
    stride_s: (s1 - s0) / rate_hz,
    from: cycle.from - first,
    to: cycle.to - first,
    rate: columns[0],
    up: columns[1],
    forward: columns[2],
    along: columns[3],
    across: columns[4],
    norm: columns[5],
    angle,
    mean_up: mean / (s1 - s0),
  };
}

/** The plane's acceleration in directions that turn with the segment: along its mean over a stretch, and across that, forward of it. */
function segmentDirections(
  a: Float64Array,
  b: Float64Array,
  from: number,
  to: number,
): { along: Float64Array; across: Float64Array } {
  let [ma, mb] = [0, 0];
  for (let i = from; i < to; i++) {
    ma += a[i];
    mb += b[i];
  }
  const length = Math.hypot(ma, mb) || 1;
  const [ex, ey] = [ma / length, mb / length];
  const [along, across] = turned(a, b, ex, ey);
  return { along, across };
}

/** Components of a plane's vectors along the unit vector (ex, ey), and along what is a quarter turn before it. */
function turned(a: Float64Array, b: Float64Array, ex: number, ey: number): [Float64Array, Float64Array] {
  const [one, other] = [new Float64Array(a.length), new Float64Array(a.length)];
  for (let i = 0; i < a.length; i++) {
    one[i] = a[i] * ex + b[i] * ey;
    other[i] = a[i] * ey - b[i] * ex;
  }
  return [one, other];
}
