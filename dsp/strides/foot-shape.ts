import { RADIANS_PER_DEGREE } from '../../shared/units.ts';
import type { SensorSignals } from '../events/sensor-signals.ts';
import { added, at, cross, dot, scaled, turn, turnBack, unit, type Vector3, without } from '../numeric/rotation.ts';
import { median } from '../numeric/statistics.ts';
import { type ContactRotation, contactRotation, type TrackedContact } from './foot-track.ts';

/** The instant of a contact that zeroes the pitch and gives the progression, as a share of it (shared/fields.ts). */
const FLAT = 0.4;
/** The push: from here to toe-off the foot turns about the ball. */
const PUSH_FROM = 0.6;
/**
 * The foot turns in the push about the line of its metatarsal heads, which is oblique: the direction at right angles to
 * it points further outward than the foot's long axis. 7.4 deg on average over 32 feet against markers on heel and
 * forefoot, SD between feet 3.4 (Fukuchi 2017, doi 10.7717/peerj.3298, and one runner more).
 */
const OBLIQUITY_DEG = 7;
/**
 * Errors against markers that are good to 2 deg (same recordings): pitch -0.4 +- 1.1 at touchdown, -0.2 +- 0.9 at toe-
 * off.
 */
const PITCH_U_DEG = 1.5;
/** Where the vertical is borrowed from the other contacts of the foot: they lie within 1 to 2 deg of each other. */
const BORROWED_PITCH_U_DEG = 2.5;
/** A gyroscope's scale error, as a share of the angle turned. Common practice. */
const SCALE_U = 0.01;
/** Offset of a foot; the scatter from step to step is 0.5 deg. Same recordings. */
const PROGRESSION_U_DEG = 3.5;

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
export function fillFootShape(contacts: TrackedContact[], signals: SensorSignals): void {
  for (const { row, stride } of contacts) {
    if (!('lift_m' in stride)) {
      row.reasons.heel_recovery_height_m = stride.reason;
      continue;
    }
    row.heel_recovery_height_m = stride.lift_m;
    // The height that should come back to zero and does not is an error that grew over the stride.
    row.heel_recovery_height_m_u = Math.hypot(0.01, Math.abs(stride.rise_m) / 2, 0.03 * stride.lift_m);
  }
  const posed = contacts.flatMap((contact) => pose(contact, signals) ?? []);
  if (posed.length === 0) {
    for (const { row } of contacts) row.reasons.foot_pitch_touchdown_deg = 'no stride shows the vertical and the way';
    return;
  }
  const up = unit(posed.map((p) => p.up).reduce(added));
  const forward = unit(posed.map((p) => p.forward).reduce(added));
  const long = longAxis(unit(posed.map((p) => p.push).reduce(added)), up, forward, posed[0].contact.row.side);
  const zero = median(posed.map((p) => pitchAt(p, long, p.flat)));
  for (const p of posed) fillPitch(p, long, zero, PITCH_U_DEG, signals.rate_hz);
  for (const p of posed) fillProgression(p, long);
  // A contact beside refused strides: the sole lies as it did in the others.
  for (const contact of contacts) {
    if (posed.some((p) => p.contact === contact)) continue;
    const borrowed = pose(contact, signals, { up, forward });
    if (borrowed) fillPitch(borrowed, long, zero, BORROWED_PITCH_U_DEG, signals.rate_hz);
    else contact.row.reasons.foot_pitch_touchdown_deg = 'the foot was not seen at rest';
  }
}

function fillPitch(p: Posed, long: Vector3, zero: number, method_u_deg: number, rate_hz: number): void {
  const { row, touchdown, toe_off } = p.contact;
  const first = pitchAt(p, long, touchdown) - zero;
  const last = pitchAt(p, long, toe_off!) - zero;
  row.foot_pitch_touchdown_deg = first;
  row.foot_pitch_toe_off_deg = last;
  row.foot_pitch_touchdown_deg_u = pitchError(p, long, touchdown, first, row.touchdown_s_u, method_u_deg, rate_hz);
  row.foot_pitch_toe_off_deg_u = pitchError(p, long, toe_off!, last, row.toe_off_s_u, method_u_deg, rate_hz);
}

function fillProgression(p: Posed, long: Vector3): void {
  const { row } = p.contact;
  if (row.side === 'unknown') return;
  const outward = row.side === 'left' ? 1 : -1;
  const axis = unit(without(long, p.up));
  const angle = Math.atan2(dot(cross(p.forward, axis), p.up), dot(p.forward, axis));
  row.foot_progression_deg = (outward * angle) / RADIANS_PER_DEGREE;
  row.foot_progression_deg_u = PROGRESSION_U_DEG;
}

/**
 * @param flatPose vertical and way in the sensor's axes when the foot is flat, for a contact whose strides give none
 */
function pose(
  contact: TrackedContact,
  signals: SensorSignals,
  flatPose?: { up: Vector3; forward: Vector3 },
): Posed | null {
  const rotation = contactRotation(contact, signals);
  if (!rotation || contact.rest === null || contact.toe_off === null) return null;
  const { orientations: o } = rotation;
  const time = contact.toe_off - contact.touchdown;
  const flat = Math.round(contact.touchdown + FLAT * time);
  const toFlat = (v: Vector3): Vector3 => turnBack(o, flat, turn(o, contact.rest!, v));
  let push: Vector3 = [0, 0, 0];
  for (let i = Math.round(contact.touchdown + PUSH_FROM * time); i <= contact.toe_off; i++) {
    push = added(push, at(signals.gyr_radps!, i));
  }
  if (flatPose) return { contact, rotation, flat, push, ...flatPose };
  if (!contact.up || !contact.forward) return null;
  return { contact, rotation, flat, up: toFlat(contact.up), forward: toFlat(contact.forward), push };
}

/** The foot's long axis, heel to toe, horizontal when the foot is flat, in the sensor's axes. */
function longAxis(push: Vector3, up: Vector3, forward: Vector3, side: string): Vector3 {
  const across = unit(without(push, up));
  let along = cross(up, across);
  if (dot(along, forward) < 0) along = scaled(along, -1);
  const inward = (side === 'left' ? -1 : side === 'right' ? 1 : 0) * OBLIQUITY_DEG * RADIANS_PER_DEGREE;
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
  rate_hz: number,
): number {
  const last = posed.rotation.orientations.from + posed.rotation.orientations.quaternions.length / 4 - 1;
  const index = Math.min(last - 1, Math.max(posed.rotation.orientations.from + 1, Math.round(sample)));
  const rate = ((pitchAt(posed, long, index + 1) - pitchAt(posed, long, index - 1)) * rate_hz) / 2;
  return Math.hypot(method_u_deg, SCALE_U * pitch, rate * (event_u_s ?? 0));
}
