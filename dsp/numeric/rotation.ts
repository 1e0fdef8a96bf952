import type { AxisColumns } from '../../shared/sample-block.ts';

export type Vector3 = [number, number, number];

export const dot = (a: Vector3, b: Vector3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vector3, b: Vector3): Vector3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const scaled = (a: Vector3, factor: number): Vector3 => [a[0] * factor, a[1] * factor, a[2] * factor];
export const added = (a: Vector3, b: Vector3): Vector3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const length = (a: Vector3): number => Math.hypot(a[0], a[1], a[2]);
/** Unit vector; the zero vector stays zero. */
export const unit = (a: Vector3): Vector3 => scaled(a, 1 / (length(a) || 1));
/** The part of `a` at right angles to the unit vector `n`. */
export const without = (a: Vector3, n: Vector3): Vector3 => added(a, scaled(n, -dot(a, n)));

/** Orientation of a sensor at successive samples, as unit quaternions (w, x, y, z), four numbers a sample. */
export interface Orientations {
  /** Index of the first sample in the recording's columns. */
  from: number;
  quaternions: Float64Array;
}

/**
 * Integrates angular rate to orientation, from the identity at sample `from`: `turn` takes a vector from the sensor's
 * axes at a sample to its axes at `from`. Trapezoidal rate over each interval, exact for a constant rate.
 * Source: Titterton and Weston, Strapdown Inertial Navigation Technology, 2nd ed., ch. 11 (from memory).
 * @param gyr_radps finite over [from, to]
 * @param rate_hz samples a second
 * @param from first sample
 * @param to last sample, itself included
 */
export function integrateRotation(gyr_radps: AxisColumns, rate_hz: number, from: number, to: number): Orientations {
  const { x: gx, y: gy, z: gz } = gyr_radps;
  const quaternions = new Float64Array(4 * (to - from + 1));
  let w = 1;
  let x = 0;
  let y = 0;
  let z = 0;
  quaternions[0] = 1;
  const half = 0.5 / rate_hz;
  for (let i = from + 1; i <= to; i++) {
    let rx = (gx[i - 1] + gx[i]) * half;
    let ry = (gy[i - 1] + gy[i]) * half;
    let rz = (gz[i - 1] + gz[i]) * half;
    const angle = Math.sqrt(rx * rx + ry * ry + rz * rz);
    const s = angle > 1e-9 ? Math.sin(angle / 2) / angle : 0.5;
    const c = Math.cos(angle / 2);
    rx *= s;
    ry *= s;
    rz *= s;
    const nw = w * c - x * rx - y * ry - z * rz;
    const nx = w * rx + x * c + y * rz - z * ry;
    const ny = w * ry - x * rz + y * c + z * rx;
    const nz = w * rz + x * ry - y * rx + z * c;
    const norm = 1 / Math.sqrt(nw * nw + nx * nx + ny * ny + nz * nz);
    w = nw * norm;
    x = nx * norm;
    y = ny * norm;
    z = nz * norm;
    const k = 4 * (i - from);
    quaternions[k] = w;
    quaternions[k + 1] = x;
    quaternions[k + 2] = y;
    quaternions[k + 3] = z;
  }
  return { from, quaternions };
}

/**
 * Takes three columns, sample by sample, from the sensor's axes to its axes at the first sample.
 * @param orientations from `integrateRotation`
 * @param columns vectors in the sensor's axes over the whole recording
 * @returns columns of the orientations' length, their sample 0 being `orientations.from`
 */
export function turnColumns({ from, quaternions: q }: Orientations, columns: AxisColumns): AxisColumns {
  const n = q.length / 4;
  const out = { x: new Float64Array(n), y: new Float64Array(n), z: new Float64Array(n) };
  for (let i = 0, k = 0; i < n; i++, k += 4) {
    const vx = columns.x[from + i];
    const vy = columns.y[from + i];
    const vz = columns.z[from + i];
    const w = q[k];
    const x = q[k + 1];
    const y = q[k + 2];
    const z = q[k + 3];
    const tx = 2 * (y * vz - z * vy);
    const ty = 2 * (z * vx - x * vz);
    const tz = 2 * (x * vy - y * vx);
    out.x[i] = vx + w * tx + y * tz - z * ty;
    out.y[i] = vy + w * ty + z * tx - x * tz;
    out.z[i] = vz + w * tz + x * ty - y * tx;
  }
  return out;
}

/**
 * Mean of three columns over time, trapezoidal: the first and last sample count half.
 * @param columns n vectors, evenly spaced in time
 * @returns in the unit of the columns
 */
export function timeMean({ x, y, z }: AxisColumns): Vector3 {
  const n = x.length - 1;
  const of = (c: Float64Array): number => {
    let sum = (c[0] + c[n]) / 2;
    for (let i = 1; i < n; i++) sum += c[i];
    return sum / n;
  };
  return [of(x), of(y), of(z)];
}

/**
 * Takes a vector from the sensor's axes at sample `index` to its axes at the first sample.
 * @param orientations from `integrateRotation`
 * @param index sample of the recording within them
 * @param v in the sensor's axes there, any unit
 * @returns in the unit of v
 */
export function turn({ from, quaternions: q }: Orientations, index: number, v: Vector3): Vector3 {
  const k = 4 * (index - from);
  return rotate(q[k], q[k + 1], q[k + 2], q[k + 3], v);
}

/**
 * The other way: from the axes at the first sample to those at sample `index`.
 * @param orientations from `integrateRotation`
 * @param index sample of the recording within them
 * @param v in the axes at the first sample, any unit
 * @returns in the unit of v
 */
export function turnBack({ from, quaternions: q }: Orientations, index: number, v: Vector3): Vector3 {
  const k = 4 * (index - from);
  return rotate(q[k], -q[k + 1], -q[k + 2], -q[k + 3], v);
}

function rotate(w: number, x: number, y: number, z: number, v: Vector3): Vector3 {
  const tx = 2 * (y * v[2] - z * v[1]);
  const ty = 2 * (z * v[0] - x * v[2]);
  const tz = 2 * (x * v[1] - y * v[0]);
  return [v[0] + w * tx + y * tz - z * ty, v[1] + w * ty + z * tx - x * tz, v[2] + w * tz + x * ty - y * tx];
}

/**
 * The three columns at one sample.
 * @param columns three columns of equal length
 * @param index sample
 * @returns x, y, z in the unit of the columns
 */
export function at({ x, y, z }: AxisColumns, index: number): Vector3 {
  return [x[index], y[index], z[index]];
}
