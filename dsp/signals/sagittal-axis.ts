import type { Vector3 } from '../numeric/rotation.ts';
import type { AxisColumns } from '../../shared/sample-block.ts';

/**
 * Axis about which the leg swings: the direction that carries most of the rotation, i.e. the first eigenvector of the
 * second moment of the angular rate over the samples that rotate at all. Turning the sensor turns the axis with it, so
 * the projection on it does not depend on how the sensor is mounted. Its sign is arbitrary here; see `forwardSign`.
 * @param gyr_radps angular rate, sensor axes, rad/s; NaN samples are left out
 * @param active_rate_radps samples slower than this are left out
 * @returns unit vector and the share of the rotation it carries (1/3 to 1); null when nothing rotates
 */
export function sagittalAxis(
  gyr_radps: AxisColumns,
  active_rate_radps: number,
): { axis: Vector3; share: number } | null {
  const { x, y, z } = gyr_radps;
  const threshold = active_rate_radps * active_rate_radps;
  const m = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < x.length; i++) {
    const a = x[i];
    const b = y[i];
    const c = z[i];
    if (!(a * a + b * b + c * c > threshold)) continue;
    m[0] += a * a;
    m[1] += a * b;
    m[2] += a * c;
    m[3] += b * b;
    m[4] += b * c;
    m[5] += c * c;
  }
  const trace = m[0] + m[3] + m[5];
  if (!(trace > 0)) return null;
  const axis = principalEigenvector(m);
  const along = quadraticForm(m, axis);
  return { axis, share: along / trace };
}

/**
 * Largest eigenvector of a symmetric 3 x 3 matrix [xx, xy, xz, yy, yz, zz], by repeated squaring.
 * @param matrix its six different numbers, in that order
 * @returns unit vector; its sign is arbitrary
 */
export function principalEigenvector(matrix: number[]): Vector3 {
  let m = matrix.slice();
  // Squaring k times raises eigenvalue ratios to the power 2^k: 30 times separates ratios as close as 1 + 1e-8.
  for (let k = 0; k < 30; k++) {
    const scale = 1 / (Math.abs(m[0]) + Math.abs(m[3]) + Math.abs(m[5]));
    const [a, b, c, d, e, f] = m.map((v) => v * scale);
    m = [
      a * a + b * b + c * c,
      a * b + b * d + c * e,
      a * c + b * e + c * f,
      b * b + d * d + e * e,
      b * c + d * e + e * f,
      c * c + e * e + f * f,
    ];
  }
  const rows: Vector3[] = [
    [m[0], m[1], m[2]],
    [m[1], m[3], m[4]],
    [m[2], m[4], m[5]],
  ];
  const lengths = rows.map(([a, b, c]) => Math.hypot(a, b, c));
  const longest = lengths.indexOf(Math.max(...lengths));
  const [a, b, c] = rows[longest];
  return [a / lengths[longest], b / lengths[longest], c / lengths[longest]];
}

function quadraticForm(m: number[], v: Vector3): number {
  const [x, y, z] = v;
  return m[0] * x * x + m[3] * y * y + m[5] * z * z + 2 * (m[1] * x * y + m[2] * x * z + m[4] * y * z);
}

/**
 * Component of three columns along a unit vector.
 * @param columns n samples an axis
 * @param axis unit vector
 * @returns n values in the unit of the columns
 */
export function project(columns: AxisColumns, axis: Vector3): Float64Array {
  const n = columns.x.length;
  const out = new Float64Array(n);
  for (let i = 0; i < n; i++) out[i] = columns.x[i] * axis[0] + columns.y[i] * axis[1] + columns.z[i] * axis[2];
  return out;
}

/**
 * Length of the vector at every sample.
 * @param columns n samples an axis
 * @returns n values in the unit of the columns, 0 or more
 */
export function norm(columns: AxisColumns): Float64Array {
  const n = columns.x.length;
  const out = new Float64Array(n);
  for (let i = 0; i < n; i++) out[i] = Math.sqrt(columns.x[i] ** 2 + columns.y[i] ** 2 + columns.z[i] ** 2);
  return out;
}
