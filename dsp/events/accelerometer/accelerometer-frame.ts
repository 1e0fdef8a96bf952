import type { AnalysisSettings } from '../../settings/settings.ts';
import { mean as meanOf, median, standardDeviation } from '../../numeric/statistics.ts';
import type { AnchoredStride } from './accelerometer-strides.ts';
import { lowPass, type SensorSignals } from '../../signals/sensor-signals.ts';

/**
 * Acceleration in directions that the motion itself gives, where there is no gyroscope: turning the sensor in its mounting
 * changes nothing.
 */
export interface AccelerometerFrame {
  /** Along the mean acceleration of running: gravity and the pull of the swinging leg, lengthwise to the segment, m/s2. */
  along: Float64Array;
  /** Across it in the plane of leg swing, m/s2; positive in the braking of late swing once `faceForward` has seen to it. */
  across: Float64Array;
  /** Out of that plane, m/s2. */
  beside: Float64Array;
  /** Length of the acceleration, m/s2. */
  norm: Float64Array;
  /** 1 where the sensor is shaken as in running. */
  active: Uint8Array;
}

/**
 * Finds the frame from the active part of a recording. The leg swings in a plane that gravity lies in, so the direction of the
 * least second moment (not variance: gravity counts) is across that plane; the mean acceleration in it is lengthwise. Within
 * 10 degrees of the axis of rotation in most real recordings, 20 in all.
 * @returns null where nothing is active
 */
export function accelerometerFrame(signals: SensorSignals, settings: AnalysisSettings): AccelerometerFrame | null {
  const { acc_mps2, acc_norm, rate_hz, length } = signals;
  const active = activeSamples(acc_norm, rate_hz, settings);
  const columns = [acc_mps2.x, acc_mps2.y, acc_mps2.z].map((c) =>
    lowPass(c, settings.accelerometer.plane_cutoff_hz, rate_hz),
  );
  const usable = (i: number): boolean => active[i] === 1 && Number.isFinite(columns[0][i]);
  let n = 0;
  const mean = [0, 0, 0];
  for (let i = 0; i < length; i++) {
    if (!usable(i)) continue;
    n++;
    for (let k = 0; k < 3; k++) mean[k] += columns[k][i];
  }
  if (n < settings.accelerometer.active_s * rate_hz) return null;
  for (let k = 0; k < 3; k++) mean[k] /= n;
  const moment = [0, 1, 2].map((j) => [0, 1, 2].map((k) => meanProduct(columns[j], columns[k])));
  function meanProduct(a: Float64Array, b: Float64Array): number {
    let total = 0;
    for (let i = 0; i < length; i++) if (usable(i)) total += a[i] * b[i];
    return total / n;
  }
  const side = leastDirection(moment);
  const along = unit(subtract(mean, scale(side, dot(mean, side))));
  const across = cross(side, along);
  const { x, y, z } = acc_mps2;
  const project = (d: number[]): Float64Array => x.map((v, i) => v * d[0] + y[i] * d[1] + z[i] * d[2]);
  return { along: project(along), across: project(across), beside: project(side), norm: acc_norm, active };
}

/**
 * The frame with `across` pointing as it should: the leg brakes in late swing and is pulled back while it stands.
 * @param landings bursts of change of acceleration, somewhat after each touchdown
 * @param rate_hz samples a second
 * @param usual_s stride time that the low-pass is made for
 */
export function faceForward(
  frame: AccelerometerFrame,
  landings: AnchoredStride[],
  rate_hz: number,
  usual_s: number,
  settings: AnalysisSettings,
): AccelerometerFrame {
  const { cutoff, facing: m } = settings.accelerometer;
  const slow = lowPass(frame.across, cutoff.slow / usual_s, rate_hz);
  const over = (from: number, to: number): number => {
    const part = [...slow.subarray(Math.max(0, Math.round(from)), Math.max(0, Math.round(to)))].filter(Number.isFinite);
    return part.length > 0 ? meanOf(part) : Number.NaN;
  };
  const drops = landings
    .map(({ anchor, stride_s }) => {
      const stride = stride_s * rate_hz;
      return (
        over(anchor - m.swing_before * stride, anchor) -
        over(anchor + m.stance_from * stride, anchor + m.stance_to * stride)
      );
    })
    .filter(Number.isFinite);
  return drops.length === 0 || median(drops) >= 0 ? frame : { ...frame, across: frame.across.map((v) => -v) };
}

/**
 * Ratio of the standard deviations across and along over the active part: high for a swinging leg, low for hops.
 * @param rate_hz samples a second
 * @param cutoff_hz low-pass before
 * @param from first sample
 * @param to sample after the last
 * @returns 0 or more; NaN where the stretch holds no samples
 */
export function swingRatio(
  frame: AccelerometerFrame,
  rate_hz: number,
  cutoff_hz: number,
  from: number,
  to: number,
): number {
  const part = (c: Float64Array): number[] =>
    [...lowPass(c.slice(Math.max(0, from), to), cutoff_hz, rate_hz)].filter(Number.isFinite);
  return standardDeviation(part(frame.across)) / standardDeviation(part(frame.along));
}

function activeSamples(norm: Float64Array, rate_hz: number, settings: AnalysisSettings): Uint8Array {
  const { active_mps2, active_s } = settings.accelerometer;
  const block = Math.max(4, Math.round((active_s / 2) * rate_hz));
  const active = new Uint8Array(norm.length);
  for (let from = 0; from < norm.length; from += block) {
    const to = Math.min(norm.length, from + 2 * block);
    let [n, sum, squares] = [0, 0, 0];
    for (let i = from; i < to; i++) {
      if (!Number.isFinite(norm[i])) continue;
      n++;
      sum += norm[i];
      squares += norm[i] * norm[i];
    }
    if (n > 3 && Math.sqrt(squares / n - (sum / n) ** 2) >= active_mps2) active.fill(1, from, to);
  }
  return active;
}

/** Unit eigenvector of the smallest eigenvalue of a symmetric 3 x 3 matrix: inverse power iteration. */
function leastDirection(m: number[][]): number[] {
  const lift = 1e-9 * (m[0][0] + m[1][1] + m[2][2]) + 1e-12;
  const a = m.map((row, j) => row.map((v, k) => v + (j === k ? lift : 0)));
  const adjugate = [cross(a[1], a[2]), cross(a[2], a[0]), cross(a[0], a[1])];
  let v = unit([1, 0.7, 0.4]);
  for (let round = 0; round < 100; round++) v = unit(adjugate.map((row) => dot(row, v)));
  return v;
}

const dot = (a: number[], b: number[]): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const scale = (a: number[], f: number): number[] => a.map((v) => v * f);
const subtract = (a: number[], b: number[]): number[] => a.map((v, k) => v - b[k]);
const unit = (a: number[]): number[] => scale(a, 1 / Math.sqrt(dot(a, a)));
const cross = (a: number[], b: number[]): number[] => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
