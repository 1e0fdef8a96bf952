import { because } from '../../shared/reason.ts';
import { RADIANS_PER_DEGREE } from '../../shared/units.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';
import { added, at, cross, dot, scaled, turn, turnBack, unit, type Vector3, without } from '../numeric/rotation.ts';
import { median } from '../numeric/statistics.ts';
import type { StrideSettings } from '../settings/strides.ts';
import { type ContactRotation, contactRotation, type TrackedContact } from './foot-track.ts';

interface Posed {
  contact: TrackedContact;
  rotation: ContactRotation;
  /** Sample at 40 % of contact, and the directions in the sensor's axes there. */
  flat: number;
  up: Vector3;
  forward: Vector3;
  push: Vector3;
}

/**
 * Foot pitch at touchdown and toe-off, foot progression, and heel recovery height of every tracked contact. The
 * sensor's mounting need not be known: vertical and direction of travel come from the strides, the foot's long axis
 * from the axis it turns about in the push. Rows are changed in place.
 */
export function fillFootShape(contacts: TrackedContact[], signals: SensorSignals, settings: StrideSettings): void {
  const { foot_shape: shape } = settings;
  for (const { row, stride } of contacts) {
    if (!('lift_m' in stride)) {
      row.reasons.heel_recovery_height_m = stride.reason;
      continue;
    }
    row.heel_recovery_height_m = stride.lift_m;
    // The height that should come back to zero and does not is an error that grew over the stride.
    row.heel_recovery_height_m_u = Math.hypot(0.01, Math.abs(stride.rise_m) / 2, 0.03 * stride.lift_m);
  }
  const posed = contacts.flatMap((contact) => pose(contact, signals, shape) ?? []);
  if (posed.length === 0) {
    for (const { row } of contacts) row.reasons.foot_pitch_touchdown_deg = because('no_vertical');
    return;
  }
  const up = unit(posed.map((p) => p.up).reduce(added));
  const forward = unit(posed.map((p) => p.forward).reduce(added));
  const long = longAxis(
    unit(posed.map((p) => p.push).reduce(added)),
    up,
    forward,
    posed[0].contact.row.side,
    shape.obliquity_deg,
  );
  const zero = median(posed.map((p) => pitchAt(p, long, p.flat)));
  for (const p of posed) fillPitch(p, long, zero, shape.pitch_deg_u, shape.scale_share_u, signals.rate_hz);
  for (const p of posed) fillProgression(p, long, shape.progression_deg_u);
  // A contact beside refused strides: the sole lies as it did in the others.
  for (const contact of contacts) {
    if (posed.some((p) => p.contact === contact)) continue;
    const likeOthers = pose(contact, signals, shape, { up, forward });
    if (likeOthers)
      fillPitch(likeOthers, long, zero, shape.other_rest_pitch_deg_u, shape.scale_share_u, signals.rate_hz);
    else contact.row.reasons.foot_pitch_touchdown_deg = because('foot_not_at_rest');
  }
}

function fillPitch(
  p: Posed,
  long: Vector3,
  zero: number,
  method_u_deg: number,
  scale_share_u: number,
  rate_hz: number,
): void {
  const { row, touchdown, toe_off } = p.contact;
  const first = pitchAt(p, long, touchdown) - zero;
  const last = pitchAt(p, long, toe_off!) - zero;
  row.foot_pitch_touchdown_deg = first;
  row.foot_pitch_toe_off_deg = last;
  row.foot_pitch_touchdown_deg_u = pitchError(
    p,
    long,
    touchdown,
    first,
    row.touchdown_s_u,
    method_u_deg,
    scale_share_u,
    rate_hz,
  );
  row.foot_pitch_toe_off_deg_u = pitchError(
    p,
    long,
    toe_off!,
    last,
    row.toe_off_s_u,
    method_u_deg,
    scale_share_u,
    rate_hz,
  );
}

function fillProgression(p: Posed, long: Vector3, progression_deg_u: number): void {
  const { row } = p.contact;
  if (row.side === 'unknown') return;
  const outward = row.side === 'left' ? 1 : -1;
  const axis = unit(without(long, p.up));
  const angle = Math.atan2(dot(cross(p.forward, axis), p.up), dot(p.forward, axis));
  row.foot_progression_deg = (outward * angle) / RADIANS_PER_DEGREE;
  row.foot_progression_deg_u = progression_deg_u;
}

/**
 * @param flatPose vertical and way in the sensor's axes when the foot is flat, for a contact whose strides give none
 */
function pose(
  contact: TrackedContact,
  signals: SensorSignals,
  shape: StrideSettings['foot_shape'],
  flatPose?: { up: Vector3; forward: Vector3 },
): Posed | null {
  const rotation = contactRotation(contact, signals);
  if (!rotation || contact.rest === null || contact.toe_off === null) return null;
  const { orientations: o } = rotation;
  const time = contact.toe_off - contact.touchdown;
  const flat = Math.round(contact.touchdown + shape.flat_share * time);
  const toFlat = (v: Vector3): Vector3 => turnBack(o, flat, turn(o, contact.rest!, v));
  let push: Vector3 = [0, 0, 0];
  for (let i = Math.round(contact.touchdown + shape.push_from_share * time); i <= contact.toe_off; i++) {
    push = added(push, at(signals.gyr_radps!, i));
  }
  if (flatPose) return { contact, rotation, flat, push, ...flatPose };
  if (!contact.up || !contact.forward) return null;
  return { contact, rotation, flat, up: toFlat(contact.up), forward: toFlat(contact.forward), push };
}

/** The foot's long axis, heel to toe, horizontal when the foot is flat, in the sensor's axes. */
function longAxis(push: Vector3, up: Vector3, forward: Vector3, side: string, obliquity_deg: number): Vector3 {
  const across = unit(without(push, up));
  let along = cross(up, across);
  if (dot(along, forward) < 0) along = scaled(along, -1);
  const inward = (side === 'left' ? -1 : side === 'right' ? 1 : 0) * obliquity_deg * RADIANS_PER_DEGREE;
  return unit(added(scaled(along, Math.cos(inward)), scaled(cross(up, along), Math.sin(inward))));
}

/** Heel-up pitch of the long axis against the horizontal at a fractional sample, deg. */
function pitchAt({ rotation, flat, up }: Posed, long: Vector3, sample: number): number {
  const at = (index: number): number => {
    const sine = dot(rotation.toRest(index, long), rotation.toRest(flat, up));
    return -Math.asin(Math.max(-1, Math.min(1, sine))) / RADIANS_PER_DEGREE;
  };
  const below = Math.floor(sample);
  const share = sample - below;
  return share === 0 ? at(below) : at(below) * (1 - share) + at(below + 1) * share;
}

/** Method, gyroscope scale, and the event's own uncertainty times the rate of pitch there. */
function pitchError(
  posed: Posed,
  long: Vector3,
  sample: number,
  pitch: number,
  event_u_s: number | null,
  method_u_deg: number,
  scale_share_u: number,
  rate_hz: number,
): number {
  const last = posed.rotation.orientations.from + posed.rotation.orientations.quaternions.length / 4 - 1;
  const index = Math.min(last - 1, Math.max(posed.rotation.orientations.from + 1, Math.round(sample)));
  const rate = ((pitchAt(posed, long, index + 1) - pitchAt(posed, long, index - 1)) * rate_hz) / 2;
  return Math.hypot(method_u_deg, scale_share_u * pitch, rate * (event_u_s ?? 0));
}
