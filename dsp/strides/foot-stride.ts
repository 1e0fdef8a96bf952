import type { AxisColumns } from '../../shared/sample-block.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import type { SensorSignals } from '../events/sensor-signals.ts';
import {
  at,
  cross,
  dot,
  integrateRotation,
  length,
  type Orientations,
  timeMean,
  turnBack,
  turnColumns,
  unit,
  type Vector3,
  without,
} from '../numeric/rotation.ts';

/** The way of a foot from one rest to its next. Vectors in the sensor's axes at the first rest. */
export interface FootStride {
  /** Sample indices of the two rests. */
  from: number;
  to: number;
  duration_s: number;
  /** Horizontal distance between the rests, m. */
  length_m: number;
  length_m_u: number;
  /** Greatest height above the line between the rests, m. */
  lift_m: number;
  /** Change of height that the integration found, m: near 0 on level ground, else an error. */
  rise_m: number;
  orientations: Orientations;
  up: Vector3;
  forward: Vector3;
  /** The same two directions in the sensor's axes at the second rest. */
  up_at_end: Vector3;
  forward_at_end: Vector3;
}

/**
 * At its slowest the foot still rolls forward over its contact with the ground, the sensor above it with it: height of
 * the sensor over the pivot times rate of rolling. 'Common practice': an instep sensor sits 5 to 8 cm high.
 */
const ROLL_HEIGHT_M = 0.055;
const ROLL_HEIGHT_U_M = 0.02;
/** Half width of the window that the rate of rolling is a mean of, s. */
const ROLL_WINDOW_S = 0.015;
/**
 * Beyond that the foot is never quite at rest in mid-contact. Measured as the scatter of stride lengths between real
 * shoe sensor and motion capture (Wagstaff 2021, doi 10.21227/v1z6-9z84), and treadmill belts.
 */
const REST_SPEED_U_MPS = 0.03;
/** Scale and mounting errors, as a share of the length. Same sources. */
const LENGTH_SHARE_U = 0.015;
/**
 * Where in the stride an impact sits, from its end, as a share of it: what it adds to the velocity counts from there
 * on.
 */
const IMPACT_LEVER = 0.35;
/** A clipped sample misses about this share of full scale. Common practice. */
const CLIPPED_SHARE = 0.5;
/**
 * Clipped for longer than this in a stride, s, the accelerometer has missed what counts. In simulated sprints with a range
 * of 16 g strides with more were wrong by 26 % and more, those with less by 5 %.
 */
const LONGEST_CLIPPING_S = 0.02;
/**
 * On level ground the foot comes back to its height. What is missing there is missing along the way as well, at about this
 * share (simulated sprints: lengths wrong by 0.25 to 0.35 of the rise).
 */
const RISE_SHARE_U = 0.25;
/** A greater rise than this in a stride is no ground, but an error, m. */
const GREATEST_RISE_M = 0.8;
/** Samples lost in a row: longer than this no straight line stands for them, s. */
const LONGEST_LOSS_S = 0.03;
/**
 * How far a straight line over lost samples may be off, m/s2, on average. Common practice: half the swing's
 * acceleration.
 */
const BRIDGE_U_MPS2 = 30;
/** A mean acceleration further from gravity than this share is no stride from rest to rest. */
const GRAVITY_TOLERANCE = 0.15;

/**
 * Strapdown integration from rest to rest. The rate gives the orientation against the first rest. The velocity is zero
 * at both rests, so the mean of the turned acceleration over the stride is gravity alone, direction and all: no tilt
 * has to be read from the shaking accelerometer, and taking that mean away removes the drift of the velocity in the
 * same step. On a treadmill the belt is the ground: the foot rests on it, and the stride is the belt's way.
 * @param acc_range_mps2 full scale, for what clipped samples may have missed
 * @returns why not, where the stride cannot be integrated: clipped or missing samples, or no rest at its ends
 */
export function integrateStride(
  signals: SensorSignals,
  from: number,
  to: number,
  acc_range_mps2: number | null,
): FootStride | { reason: string } {
  const { acc_mps2: acc, gyr_radps: gyr, rate_hz } = signals;
  if (!gyr) return { reason: 'no gyroscope' };
  let [clipped, lost, lostInARow] = [0, 0, 0];
  for (let i = from; i <= to; i++) {
    if (signals.gyr_clipped[i]) return { reason: 'the swing went beyond the range of the gyroscope' };
    if (signals.acc_clipped[i]) clipped++;
    lostInARow = signals.measured[i] ? 0 : lostInARow + 1;
    if (lostInARow > 0) lost++;
    if (lostInARow > LONGEST_LOSS_S * rate_hz || !Number.isFinite(acc.x[i] + gyr.x[i]))
      return { reason: 'samples are missing in the stride' };
  }
  if (clipped > LONGEST_CLIPPING_S * rate_hz) return { reason: 'the swing went beyond the range of the accelerometer' };
  const orientations = integrateRotation(gyr, rate_hz, from, to);
  const n = to - from;
  const turned = turnColumns(orientations, acc);
  const mean = timeMean(turned);
  const gravity = length(mean);
  if (Math.abs(gravity - STANDARD_GRAVITY_MPS2) > GRAVITY_TOLERANCE * STANDARD_GRAVITY_MPS2) {
    return { reason: 'the foot was not at rest at both ends of the stride' };
  }
  const up = unit(mean);
  const { displacement, heights } = integrateTwice(turned, mean, up, rate_hz);
  const horizontal = without(displacement, up);
  const duration_s = n / rate_hz;
  const rise_m = dot(displacement, up);
  if (Math.abs(rise_m) > GREATEST_RISE_M)
    return { reason: 'the height of the foot does not come back over the stride' };
  let lift_m = 0;
  for (let i = 0; i <= n; i++) lift_m = Math.max(lift_m, heights[i] - (rise_m * i) / n);
  const forward = unit(horizontal);
  const up_at_end = turnBack(orientations, to, up);
  const forward_at_end = turnBack(orientations, to, forward);
  const rolling =
    (rollingRate(gyr, rate_hz, from, cross(up, forward)) +
      rollingRate(gyr, rate_hz, to, cross(up_at_end, forward_at_end))) /
    2;
  const length_m = length(horizontal) + ROLL_HEIGHT_M * rolling * duration_s;
  const lost_mps =
    Math.abs(gravity - STANDARD_GRAVITY_MPS2) * duration_s +
    (CLIPPED_SHARE * (acc_range_mps2 ?? 0) * Math.sqrt(clipped)) / rate_hz +
    (BRIDGE_U_MPS2 * Math.sqrt(lost)) / rate_hz;
  return {
    from,
    to,
    duration_s,
    length_m,
    length_m_u: Math.hypot(
      REST_SPEED_U_MPS * duration_s,
      ROLL_HEIGHT_U_M * rolling * duration_s,
      LENGTH_SHARE_U * length_m,
      IMPACT_LEVER * lost_mps * duration_s,
      RISE_SHARE_U * rise_m,
    ),
    lift_m,
    rise_m,
    orientations,
    up,
    forward,
    up_at_end,
    forward_at_end,
  };
}

/** Mean rate about the axis to the left (heel rising positive) around a rest, rad/s. */
function rollingRate(gyr: AxisColumns, rate_hz: number, rest: number, left: Vector3): number {
  const half = Math.max(1, Math.round(ROLL_WINDOW_S * rate_hz));
  let [sum, count] = [0, 0];
  for (let i = Math.max(0, rest - half); i <= rest + half && i < gyr.x.length; i++) {
    const rate = dot(at(gyr, i), left);
    if (!Number.isFinite(rate)) continue;
    sum += rate;
    count++;
  }
  return count > 0 ? sum / count : 0;
}

/** Displacement between the rests and the height at every sample, trapezoidal, `mean` taken away. */
function integrateTwice(
  acceleration: AxisColumns,
  mean: Vector3,
  up: Vector3,
  rate_hz: number,
): { displacement: Vector3; heights: Float64Array } {
  const n = acceleration.x.length - 1;
  const heights = new Float64Array(n + 1);
  const displacement: Vector3 = [0, 0, 0];
  const dt = 1 / rate_hz;
  [acceleration.x, acceleration.y, acceleration.z].forEach((a, k) => {
    let v = 0;
    let p = 0;
    for (let i = 0; i < n; i++) {
      const next = v + ((a[i] + a[i + 1]) / 2 - mean[k]) * dt;
      p += ((v + next) / 2) * dt;
      v = next;
      heights[i + 1] += p * up[k];
    }
    displacement[k] = p;
  });
  return { displacement, heights };
}
