import { because, type Reason } from '../../shared/reason.ts';
import type { AxisColumns } from '../../shared/sample-block.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';
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
import type { StrideSettings } from '../settings/strides.ts';

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
 * Strapdown integration from rest to rest. The rate gives the orientation against the first rest. The velocity is zero
 * at both rests, so the mean of the turned acceleration over the stride is gravity alone, direction and all: no tilt
 * has to be read from the shaking accelerometer, and taking that mean away removes the drift of the velocity in the
 * same step. On a treadmill the belt is the ground: the foot rests on it, and the stride is the belt's way.
 * @param from sample of the first rest
 * @param to sample of the second rest
 * @param acc_range_mps2 full scale, for what clipped samples may have missed
 * @returns why not, where the stride cannot be integrated: clipped or missing samples, or no rest at its ends
 */
export function integrateStride(
  signals: SensorSignals,
  from: number,
  to: number,
  acc_range_mps2: number | null,
  settings: StrideSettings,
): FootStride | { reason: Reason } {
  const { acc_mps2: acc, gyr_radps: gyr, rate_hz } = signals;
  const { foot } = settings;
  if (!gyr) return { reason: because('no_gyroscope') };
  let [clipped, lost, lostInARow] = [0, 0, 0];
  for (let i = from; i <= to; i++) {
    if (signals.gyr_clipped[i]) return { reason: because('swing_beyond_gyroscope') };
    if (signals.acc_clipped[i]) clipped++;
    lostInARow = signals.measured[i] ? 0 : lostInARow + 1;
    if (lostInARow > 0) lost++;
    if (lostInARow > foot.longest_loss_s * rate_hz || !Number.isFinite(acc.x[i] + gyr.x[i]))
      return { reason: because('samples_missing_in_stride') };
  }
  if (clipped > foot.longest_clipping_s * rate_hz) return { reason: because('swing_beyond_accelerometer') };
  const orientations = integrateRotation(gyr, rate_hz, from, to);
  const n = to - from;
  const turned = turnColumns(orientations, acc);
  const mean = timeMean(turned);
  const gravity = length(mean);
  if (Math.abs(gravity - STANDARD_GRAVITY_MPS2) > foot.gravity_tolerance_share * STANDARD_GRAVITY_MPS2) {
    return { reason: because('foot_not_at_rest_twice') };
  }
  const up = unit(mean);
  const { displacement, heights } = integrateTwice(turned, mean, up, rate_hz);
  const horizontal = without(displacement, up);
  const duration_s = n / rate_hz;
  const rise_m = dot(displacement, up);
  if (Math.abs(rise_m) > foot.greatest_rise_m + foot.greatest_rise_share * length(horizontal))
    return { reason: because('foot_height_open') };
  let lift_m = 0;
  for (let i = 0; i <= n; i++) lift_m = Math.max(lift_m, heights[i] - (rise_m * i) / n);
  const forward = unit(horizontal);
  const up_at_end = turnBack(orientations, to, up);
  const forward_at_end = turnBack(orientations, to, forward);
  const rolling =
    (rollingRate(gyr, foot.roll_window_s * rate_hz, from, cross(up, forward)) +
      rollingRate(gyr, foot.roll_window_s * rate_hz, to, cross(up_at_end, forward_at_end))) /
    2;
  const length_m = length(horizontal) + foot.roll_height_m * rolling * duration_s;
  const lost_mps =
    Math.abs(gravity - STANDARD_GRAVITY_MPS2) * duration_s +
    (foot.clipped_share_u * (acc_range_mps2 ?? 0) * Math.sqrt(clipped)) / rate_hz +
    (foot.bridge_mps2_u * Math.sqrt(lost)) / rate_hz;
  return {
    from,
    to,
    duration_s,
    length_m,
    length_m_u: Math.hypot(
      foot.rest_speed_mps_u * duration_s,
      foot.roll_height_m_u * rolling * duration_s,
      foot.length_share_u * length_m,
      foot.impact_lever_share * lost_mps * duration_s,
      foot.rise_share_u * rise_m,
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
function rollingRate(gyr: AxisColumns, half_width: number, rest: number, left: Vector3): number {
  const half = Math.max(1, Math.round(half_width));
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
