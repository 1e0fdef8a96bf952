import type { Contact } from '../../shared/analysis.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import type { StartStyle } from '../../shared/words.ts';
import {
  added,
  at,
  cross,
  dot,
  integrateRotation,
  scaled,
  turn,
  unit,
  type Vector3,
  without,
} from '../numeric/rotation.ts';
import { type Rest, restingStretches } from './standing-posture.ts';
import type { StrideContext } from './stride-context.ts';

/** A standing shank is not quite vertical, and nobody stands the same way twice. Common practice: some degrees. */
const STANDING_U_DEG = 4;
/** An estimate of the body's acceleration this wrong, m/s2, tilts what counts as vertical. */
const ACCELERATION_U_MPS2 = 0.3;
/** Starts in which the shank leans far forward at rest. */
const LEANING_STARTS: StartStyle[] = ['three_point', 'block', 'crouched'];
/** A rest that ends this shortly before the first movement is the start's own posture, s. */
const START_POSTURE_S = 1.5;

/**
 * Angle of the shank to the vertical at touchdown, positive when the foot is ahead of the knee. The shank's long axis in the sensor
 * comes from standing upright in the same recording: without that no angle is given. The vertical at each contact comes from
 * the mean acceleration over the stride, less the body's own forward acceleration. Rows are changed in place.
 * @param acceleration_mps2 forward acceleration of the body at an instant of the common clock; null where unknown
 */
export function fillShankAngle(
  rows: Contact[],
  { recording, signals }: StrideContext['sensors'][number],
  context: StrideContext,
  acceleration_mps2: (common_s: number) => number | null,
): void {
  const { gyr_radps: gyr, rate_hz, start_s, axis } = signals;
  if (!gyr || !axis) return;
  const mine = rows.filter((row) => row.side === recording.side);
  const onSensor = (common_s: number): number => (common_s - recording.clock_offset_s) / (1 + recording.clock_drift);
  const moved = context.first_movement_s === null ? null : onSensor(context.first_movement_s);
  const standing = standingPosture(restingStretches(signals), moved, context.course.start_style);
  if (!standing) {
    for (const row of mine) {
      row.reasons.shank_angle_touchdown_deg =
        'no quiet standing in the recording to show how the sensor sits on the shank';
    }
    return;
  }
  mine.forEach((row, i) => {
    const next = mine[i + 1];
    if (!next || row.stride_time_ms === null) return;
    const from = Math.round((onSensor(row.touchdown_s) - start_s) * rate_hz);
    const to = Math.round((onSensor(next.touchdown_s) - start_s) * rate_hz);
    if (from < 0 || to >= signals.length) return;
    for (let k = from; k <= to; k++) {
      if (signals.gyr_clipped[k] || !Number.isFinite(gyr.x[k] + signals.acc_mps2.x[k])) {
        row.reasons.shank_angle_touchdown_deg = 'clipped or missing samples in the stride';
        return;
      }
    }
    const orientations = integrateRotation(gyr, rate_hz, from, to);
    let mean: Vector3 = [0, 0, 0];
    for (let k = from; k < to; k++) mean = added(mean, turn(orientations, k, at(signals.acc_mps2, k)));
    mean = scaled(mean, 1 / (to - from));
    const known = acceleration_mps2((row.touchdown_s + next.touchdown_s) / 2);
    const up = vertical(mean, axis, known ?? 0);
    const forward = unit(cross(up, axis));
    const angle = -Math.atan2(dot(standing, forward), dot(standing, up)) / RADIANS_PER_DEGREE;
    const tilt = Math.atan(ACCELERATION_U_MPS2 / STANDARD_GRAVITY_MPS2) / RADIANS_PER_DEGREE;
    const rate = signals.sagittal_rate![from] / RADIANS_PER_DEGREE;
    row.shank_angle_touchdown_deg = angle;
    row.shank_angle_touchdown_deg_u = Math.hypot(
      STANDING_U_DEG,
      known === null ? 2 * tilt : tilt,
      rate * (row.touchdown_s_u ?? 0),
    );
  });
}

/** The mean acceleration is gravity plus the body's forward acceleration; that part is taken off again. */
function vertical(mean: Vector3, axis: Vector3, acceleration_mps2: number): Vector3 {
  const first = unit(without(mean, axis));
  const forward = cross(first, axis);
  const tilt = Math.atan2(acceleration_mps2, STANDARD_GRAVITY_MPS2);
  return unit(added(scaled(first, Math.cos(tilt)), scaled(forward, -Math.sin(tilt))));
}

/** Up in the sensor's axes while the athlete stood upright: the longest rest that is not the start's crouch. */
function standingPosture(rests: Rest[], moved_s: number | null, start_style: StartStyle | null): Vector3 | null {
  const leaning = start_style !== null && LEANING_STARTS.includes(start_style);
  const upright = rests.filter(
    (rest) => !(leaning && (moved_s === null || (rest.end_s > moved_s - START_POSTURE_S && rest.start_s < moved_s))),
  );
  const longest = upright.sort((a, b) => b.end_s - b.start_s - (a.end_s - a.start_s))[0];
  return longest?.up ?? null;
}
