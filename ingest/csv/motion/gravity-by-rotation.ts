const WINDOW_S = 3;
const FEWEST_WINDOWS = 2;
const LONGEST_PERIOD_S = 0.02;

/**
 * What the acceleration's mean is once the sensor's turning is taken out: over some strides a body gains no speed to speak of,
 * so what remains is gravity alone, whatever the mounting. Tells the unit of acceleration where nothing ever rests.
 * @param acc n rows of three axes, any unit
 * @param gyr n rows of three axes, rad/s
 * @returns the norm of the mean in the acceleration's unit, median over windows of 3 s; null with too few rows or too low a rate
 * Method: rotation integrated from each window's start, acceleration turned back and averaged.
 * Limits: a foot's speed differs by up to 10 m/s between a window's ends, so one window may be off by a third; the median by less.
 */
export function gravityByRotation(acc: Float64Array[], gyr: Float64Array[], period_s: number): number | null {
  if (!(period_s > 0) || period_s > LONGEST_PERIOD_S) return null;
  const norms = turnedBackNorms(acc, gyr, period_s).map(({ turned }) => turned);
  if (norms.length < FEWEST_WINDOWS) return null;
  norms.sort((a, b) => a - b);
  return norms[norms.length >> 1];
}

/**
 * Norm of the mean acceleration of every window of 3 s, half overlapping.
 * @returns `turned` with the rotation taken out, `plain` without: where the two agree, nothing turned
 */
export function turnedBackNorms(
  acc: Float64Array[],
  gyr: Float64Array[],
  period_s: number,
): { turned: number; plain: number }[] {
  const length = Math.round(WINDOW_S / period_s);
  const norms: { turned: number; plain: number }[] = [];
  for (let start = 0; start + length <= Math.min(acc[0].length, gyr[0].length); start += Math.ceil(length / 2)) {
    const turned = meanTurnedBack(acc, gyr, period_s, start, start + length);
    if (turned === null) continue;
    const mean = acc.map((axis) => meanOf(axis, start, start + length));
    norms.push({ turned, plain: Math.hypot(mean[0], mean[1], mean[2]) });
  }
  return norms;
}

function meanOf(axis: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += axis[i];
  return sum / (to - from);
}

function meanTurnedBack(
  acc: Float64Array[],
  gyr: Float64Array[],
  period: number,
  from: number,
  to: number,
): number | null {
  let [w, x, y, z] = [1, 0, 0, 0];
  let [sumX, sumY, sumZ] = [0, 0, 0];
  for (let i = from; i < to; i++) {
    const [ax, ay, az] = [acc[0][i], acc[1][i], acc[2][i]];
    const [p, q, r] = [gyr[0][i], gyr[1][i], gyr[2][i]];
    if (Number.isNaN(ax + ay + az + p + q + r)) return null;
    // v + 2 u x (u x v + w v), the rotation of v by the quaternion (w, u).
    const tx = 2 * (y * az - z * ay);
    const ty = 2 * (z * ax - x * az);
    const tz = 2 * (x * ay - y * ax);
    sumX += ax + w * tx + y * tz - z * ty;
    sumY += ay + w * ty + z * tx - x * tz;
    sumZ += az + w * tz + x * ty - y * tx;
    const rate = Math.sqrt(p * p + q * q + r * r);
    const half = 0.5 * rate * period;
    const c = Math.cos(half);
    const s = rate > 0 ? Math.sin(half) / rate : 0;
    const [dx, dy, dz] = [p * s, q * s, r * s];
    [w, x, y, z] = [
      w * c - x * dx - y * dy - z * dz,
      w * dx + x * c + y * dz - z * dy,
      w * dy - x * dz + y * c + z * dx,
      w * dz + x * dy - y * dx + z * c,
    ];
  }
  return Math.hypot(sumX, sumY, sumZ) / (to - from);
}
