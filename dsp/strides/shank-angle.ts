import { ownTime } from '../../shared/sensor-clock.ts';
import { sampleAt } from '../signals/sensor-time.ts';
import { because } from '../../shared/reason.ts';
import type { Contact } from '../../shared/analysis.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import type { StartStyle } from '../../shared/words.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';
import {
  added,
  cross,
  dot,
  integrateRotation,
  length,
  scaled,
  timeMean,
  turn,
  turnBack,
  turnColumns,
  unit,
  type Vector3,
} from '../numeric/rotation.ts';
import type { StrideSettings } from '../settings/strides.ts';
import { type Rest, restingStretches } from './standing-posture.ts';
import type { StrideContext } from './stride-context.ts';

/** Starts in which the shank leans far forward at rest. */
const LEANING_STARTS: StartStyle[] = ['three_point', 'block', 'crouched'];

/** One contact on the sensor's grid, with the vertical that its neighbouring strides give at mid-contact. */
interface ShankContact {
  row: Contact;
  touchdown: number;
  middle: number | null;
  ups: { up: Vector3; u_deg: number }[];
}

/**
 * Angle of the shank to the vertical at touchdown, positive when the foot is ahead of the knee. The shank's long axis
 * in the sensor comes from standing upright in the same recording: without that no angle is given. The vertical comes
 * from the mean acceleration between mid-contacts: the ankle stands nearly still in each, however much the body speeds
 * up in between, so the mean is gravity. Rows are changed in place.
 */
export function fillShankAngle(
  rows: Contact[],
  { recording, signals }: StrideContext['sensors'][number],
  context: StrideContext,
): void {
  const { gyr_radps: gyr, rate_hz, axis } = signals;
  if (!gyr || !axis) return;
  const toIndex = (common_s: number): number => sampleAt(common_s, { recording, signals });
  const mine = rows.filter((row) => row.side === recording.side);
  const moved = context.first_movement_s === null ? null : ownTime(context.first_movement_s, recording);
  const { shank } = context.settings;
  const standing = standingPosture(
    restingStretches(signals, context.settings),
    moved,
    context.course.start_style,
    shank.start_posture_s,
  );
  if (!standing) {
    for (const row of mine) {
      row.reasons.shank_angle_touchdown_deg = because('no_standing');
    }
    return;
  }
  const contacts = mine.map((row): ShankContact => {
    const touchdown = toIndex(row.touchdown_s);
    const middle =
      row.toe_off_s === null
        ? null
        : Math.round(touchdown + shank.slowest_share * (toIndex(row.toe_off_s) - touchdown));
    return { row, touchdown, middle, ups: [] };
  });
  contacts.forEach((contact, i) => {
    const next = contacts[i + 1];
    if (next && contact.row.stride_time_ms !== null) addVertical(contact, next, signals, shank);
  });
  for (const { row, touchdown, middle, ups } of contacts) {
    if (ups.length === 0 || middle === null) {
      row.reasons.shank_angle_touchdown_deg = because('clipped_or_no_stride');
      continue;
    }
    const first = Math.round(touchdown);
    const weights = ups.map(({ u_deg }) => 1 / (u_deg * u_deg));
    const upThere = unit(ups.map(({ up }, k) => scaled(up, weights[k])).reduce(added));
    const orientations = integrateRotation(gyr, rate_hz, first, Math.max(first, middle));
    const up = turn(orientations, Math.max(first, middle), upThere);
    const forward = unit(cross(up, axis));
    const rate = signals.sagittal_rate![first] / RADIANS_PER_DEGREE;
    const fromStanding = -Math.atan2(dot(standing, forward), dot(standing, up)) / RADIANS_PER_DEGREE;
    row.shank_angle_touchdown_deg = fromStanding - shank.standing_lean_deg;
    row.shank_angle_touchdown_deg_u = Math.hypot(
      shank.standing_lean_deg_u,
      1 / Math.sqrt(weights.reduce((a, b) => a + b, 0)),
      rate * (row.touchdown_s_u ?? 0),
    );
  }
}

/** The mean acceleration from one mid-contact to the next, as 'up' in the sensor's axes at both. */
function addVertical(
  contact: ShankContact,
  next: ShankContact,
  signals: SensorSignals,
  shank: StrideSettings['shank'],
): void {
  const { gyr_radps: gyr, acc_mps2: acc, rate_hz } = signals;
  const [from, to] = [contact.middle, next.middle];
  if (!gyr || from === null || to === null || from < 0 || to >= signals.length) return;
  for (let k = Math.min(from, Math.floor(contact.touchdown)); k <= to; k++) {
    if (signals.gyr_clipped[k] || !Number.isFinite(gyr.x[k] + acc.x[k])) return;
  }
  const orientations = integrateRotation(gyr, rate_hz, from, to);
  const mean = timeMean(turnColumns(orientations, acc));
  const off = Math.abs(length(mean) - STANDARD_GRAVITY_MPS2);
  if (off > shank.gravity_tolerance_share * STANDARD_GRAVITY_MPS2) return;
  const up = unit(mean);
  // What the mean lacks or has too much along gravity, it may have across it as well.
  const across = Math.hypot(off, (shank.ankle_speed_mps_u * rate_hz) / (to - from));
  const u_deg = Math.atan(across / STANDARD_GRAVITY_MPS2) / RADIANS_PER_DEGREE;
  contact.ups.push({ up, u_deg });
  next.ups.push({ up: turnBack(orientations, to, up), u_deg });
}

/** Up in the sensor's axes while the athlete stood upright: the longest rest that is not the start's crouch. */
function standingPosture(
  rests: Rest[],
  moved_s: number | null,
  start_style: StartStyle | null,
  start_posture_s: number,
): Vector3 | null {
  const leaning = start_style !== null && LEANING_STARTS.includes(start_style);
  const upright = rests.filter(
    (rest) => !(leaning && (moved_s === null || (rest.end_s > moved_s - start_posture_s && rest.start_s < moved_s))),
  );
  const longest = upright.sort((a, b) => b.end_s - b.start_s - (a.end_s - a.start_s))[0];
  return longest?.up ?? null;
}
